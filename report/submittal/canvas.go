package submittal

import (
	"image"
	"image/color"
	"math"

	"github.com/phpdave11/gofpdf"
	xfont "golang.org/x/image/font"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// canvas lets a chart draw its vectors into the page. Its origin is the lower left corner of its box; lengths come in points, the page is in mm.
type canvas struct {
	pdf         *gofpdf.Fpdf
	left, lower float64 // of the box on the page [mm]
	at          affine
	kept        []affine
}

// affine is x' = a x + c y + e, y' = b x + d y + f.
type affine struct{ a, b, c, d, e, f float64 }

func newCanvas(pdf *gofpdf.Fpdf, left, lower float64) *canvas {
	return &canvas{pdf: pdf, left: left, lower: lower, at: affine{a: 1, d: 1}}
}

// page returns where a point of the canvas lies on the page.
func (c *canvas) page(p vg.Point) (x, y float64) {
	px, py := float64(p.X), float64(p.Y)
	return c.left + (c.at.a*px+c.at.c*py+c.at.e)*mmPerPoint, c.lower - (c.at.b*px+c.at.d*py+c.at.f)*mmPerPoint
}

// SetLineWidth sets the width of strokes.
func (c *canvas) SetLineWidth(w vg.Length) { c.pdf.SetLineWidth(float64(w) * mmPerPoint) }

// SetLineDash sets the dashes of strokes.
func (c *canvas) SetLineDash(pattern []vg.Length, offset vg.Length) {
	dashes := make([]float64, len(pattern))
	for i, d := range pattern {
		dashes[i] = float64(d) * mmPerPoint
	}
	c.pdf.SetDashPattern(dashes, float64(offset)*mmPerPoint)
}

// SetColor sets the colour of strokes, fills and text.
func (c *canvas) SetColor(col color.Color) {
	if col == nil {
		col = color.Black
	}
	r, g, b, _ := col.RGBA()
	ri, gi, bi := int(r>>8), int(g>>8), int(b>>8)
	c.pdf.SetDrawColor(ri, gi, bi)
	c.pdf.SetFillColor(ri, gi, bi)
	c.pdf.SetTextColor(ri, gi, bi)
}

// Rotate turns what follows.
func (c *canvas) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	m := c.at
	c.at.a, c.at.b = m.a*cos+m.c*sin, m.b*cos+m.d*sin
	c.at.c, c.at.d = m.c*cos-m.a*sin, m.d*cos-m.b*sin
}

// Translate moves what follows.
func (c *canvas) Translate(p vg.Point) {
	c.at.e += c.at.a*float64(p.X) + c.at.c*float64(p.Y)
	c.at.f += c.at.b*float64(p.X) + c.at.d*float64(p.Y)
}

// Scale stretches what follows, but for text and line widths.
func (c *canvas) Scale(x, y float64) {
	c.at.a, c.at.b, c.at.c, c.at.d = c.at.a*x, c.at.b*x, c.at.c*y, c.at.d*y
}

// Push keeps the state.
func (c *canvas) Push() { c.kept = append(c.kept, c.at) }

// Pop brings the kept state back. Colour, width and dashes need not be kept: the plotting library sets them before each use.
func (c *canvas) Pop() {
	c.at = c.kept[len(c.kept)-1]
	c.kept = c.kept[:len(c.kept)-1]
}

// Stroke draws along a path.
func (c *canvas) Stroke(p vg.Path) { c.path(p, "D") }

// Fill fills a path.
func (c *canvas) Fill(p vg.Path) { c.path(p, "F") }

func (c *canvas) path(p vg.Path, how string) {
	for _, part := range p {
		x, y := c.page(part.Pos)
		switch part.Type {
		case vg.MoveComp:
			c.pdf.MoveTo(x, y)
		case vg.LineComp:
			c.pdf.LineTo(x, y)
		case vg.CurveComp:
			c.curve(part, x, y)
		case vg.ArcComp:
			c.arc(part)
		case vg.CloseComp:
			c.pdf.ClosePath()
		}
	}
	c.pdf.DrawPath(how)
}

func (c *canvas) curve(part vg.PathComp, x, y float64) {
	x0, y0 := c.page(part.Control[0])
	if len(part.Control) == 1 {
		c.pdf.CurveTo(x0, y0, x, y)
		return
	}
	x1, y1 := c.page(part.Control[1])
	c.pdf.CurveBezierCubicTo(x0, y0, x1, y1, x, y)
}

// arc draws an arc as chords of at most six degrees.
func (c *canvas) arc(part vg.PathComp) {
	n := max(1, int(math.Ceil(math.Abs(part.Angle)/(math.Pi/30))))
	for i := range n + 1 {
		sin, cos := math.Sincos(part.Start + part.Angle*float64(i)/float64(n))
		c.pdf.LineTo(c.page(vg.Point{X: part.Pos.X + part.Radius*vg.Length(cos), Y: part.Pos.Y + part.Radius*vg.Length(sin)}))
	}
}

// FillString writes a text along the canvas, turned with it.
func (c *canvas) FillString(f font.Face, p vg.Point, text string) {
	weight := ""
	if f.Font.Weight >= xfont.WeightBold {
		weight = "B"
	}
	c.pdf.SetFont(family, weight, float64(f.Font.Size))
	x, y := c.page(p)
	if turn := math.Atan2(c.at.b, c.at.a); math.Abs(turn) > 1e-9 {
		c.pdf.TransformBegin()
		c.pdf.TransformRotate(turn*180/math.Pi, x, y)
		defer c.pdf.TransformEnd()
	}
	c.pdf.Text(x, y, text)
}

// DrawImage does nothing: our charts hold no images.
func (c *canvas) DrawImage(vg.Rectangle, image.Image) {}
