package chart

import (
	"image/color"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// pen draws from the top left of a drawing, down.
type pen struct {
	on     vg.Canvas
	face   font.Face
	height vg.Length
}

func (p pen) point(x, down vg.Length) vg.Point { return vg.Point{X: x, Y: p.height - down} }

// stroke sets how lines are drawn.
func (p pen) stroke(grey uint8, width vg.Length, dashes ...vg.Length) {
	p.on.SetColor(color.Gray{Y: grey})
	p.on.SetLineWidth(width)
	p.on.SetLineDash(dashes, 0)
}

// line draws along points, given as x and down in turn.
func (p pen) line(at ...vg.Length) { p.on.Stroke(p.path(at)) }

func (p pen) path(at []vg.Length) vg.Path {
	var path vg.Path
	for i := 0; i < len(at); i += 2 {
		if i == 0 {
			path.Move(p.point(at[0], at[1]))
			continue
		}
		path.Line(p.point(at[i], at[i+1]))
	}
	return path
}

// box fills a rectangle.
func (p pen) box(grey uint8, left, top, right, bottom vg.Length) {
	p.on.SetColor(color.Gray{Y: grey})
	path := p.path([]vg.Length{left, top, right, top, right, bottom, left, bottom})
	path.Close()
	p.on.Fill(path)
}

// quarter is the handle of a Bézier curve that is a quarter of a circle, per radius.
const quarter = 0.5522847498

// disc fills a circle.
func (p pen) disc(grey uint8, x, down, radius vg.Length) {
	p.on.SetColor(color.Gray{Y: grey})
	k := radius * quarter
	var path vg.Path
	path.Move(p.point(x+radius, down))
	path.CubeTo(p.point(x+radius, down-k), p.point(x+k, down-radius), p.point(x, down-radius))
	path.CubeTo(p.point(x-k, down-radius), p.point(x-radius, down-k), p.point(x-radius, down))
	path.CubeTo(p.point(x-radius, down+k), p.point(x-k, down+radius), p.point(x, down+radius))
	path.CubeTo(p.point(x+k, down+radius), p.point(x+radius, down+k), p.point(x+radius, down))
	path.Close()
	p.on.Fill(path)
}

// write writes a text whose middle is at this height: from x to the right, around x, or up to x.
func (p pen) write(text string, x, middle vg.Length, part vg.Length) {
	p.on.SetColor(ink)
	p.on.FillString(p.face, p.point(x-part*p.face.Width(text), middle+labelSize*0.36), text)
}

// Where a text lies about its x.
const (
	fromHere = vg.Length(0)
	around   = vg.Length(0.5)
	upToHere = vg.Length(1)
)
