package chart

import (
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Cross is a cut through a pavement: its layers from the top, pipes or cables in a row, the sensor midway between two of them. Lengths are in mm. Notes
// stand beside the cut; without words there is none.
type Cross struct {
	Layers    []Layer
	Depth     float64 // to the centre of the pipes or cables
	Spacing   float64
	Outer     float64 // diameter
	Bore      float64 // 0: a cable
	Sensor    float64 // depth
	Insulated bool    // a strip under the slab, which has no scale
	Below     Fill
	Notes     Notes
}

// Layer is a layer of the cut.
type Layer struct {
	Thick float64
	Fill  Fill
	Note  string
}

// Notes are the words of a cut.
type Notes struct {
	Depth, Thick, Spacing string // on dimension lines
	Over, Midway          string // of the surface, over a pipe and between two
	Sensor, Pipe          string
	Insulation, Below     string
}

// Fill is how a layer is told from others without colour.
type Fill uint8

// The fills.
const (
	Empty    Fill = iota // air
	Concrete             // grains
	Asphalt              // dark, dense grains
	Pavers               // joints
	Stone                // wide joints
	Sand                 // fine grains
	Earth                // slanting lines
)

// scales are the denominators that a cut is drawn to, so that a print can be measured.
var scales = []float64{1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100}

const (
	mm          = vg.Length(72 / 25.4) // points
	notesWide   = 54 * mm              // right of the cut
	notesGap    = 6 * mm
	mostHigh    = 44 * mm  // of the pavement on paper
	aboveHigh   = 8 * mm   // over the surface, for its notes
	belowHigh   = 5.5 * mm // ground or air
	layHigh     = 3 * mm   // insulation
	spacingLow  = 8 * mm   // under all, for the dimension of the spacing
	dimGap      = 3.5 * mm // between a dimension line and what stands right of it
	tick        = 0.9 * mm
	leastAcross = 2.5 // spacings across the cut: three pipes and a little beside them
	textHigh    = labelSize * 1.25
	leastDot    = 0.35 * mm // radius of a cable that is still seen
)

// Cut is a cross-section fitted to a width: it knows its scale and its height.
type Cut struct {
	Scale  float64 // one to this
	Height vg.Length
	cross  Cross
	face   font.Face
	unit   vg.Length // of a mm
	left   vg.Length // of the cut
	wide   vg.Length // of the cut
	beside []note
}

// note is a text right of the cut and what it points at, from the top left of the drawing.
type note struct {
	x, down vg.Length
	lines   []string
	top     vg.Length
}

// Cross fits a cut to a width. It has the greatest of the usual scales at which three pipes and all layers find room.
func (l Look) Cross(c Cross, width vg.Length) Cut {
	cut := Cut{cross: c, face: l.Fonts.Lookup(font.Font{Size: labelSize}, labelSize), left: mm}
	for _, text := range []string{c.Notes.Depth, c.Notes.Thick} {
		if text != "" {
			cut.left += dimGap + cut.face.Width(text) + mm
		}
	}
	cut.wide = width - cut.left - notesGap - notesWide
	across := max(leastAcross*c.Spacing, 2*c.Spacing+1.2*c.Outer)
	cut.Scale = scales[len(scales)-1]
	for _, s := range scales {
		if vg.Length(across/s)*mm <= cut.wide && vg.Length(c.thick()/s)*mm <= mostHigh {
			cut.Scale = s
			break
		}
	}
	cut.unit = mm / vg.Length(cut.Scale)
	cut.place()
	return cut
}

func (c Cross) thick() float64 {
	sum := 0.0
	for _, l := range c.Layers {
		sum += l.Thick
	}
	return sum
}

// at returns how far below the top of the drawing a depth in the pavement lies.
func (c *Cut) at(depth float64) vg.Length { return aboveHigh + vg.Length(depth)*c.unit }

// underside returns how far down pavement and insulation reach.
func (c *Cut) underside() vg.Length {
	down := c.at(c.cross.thick())
	if c.cross.Insulated {
		down += layHigh
	}
	return down
}

func (c *Cut) radius() vg.Length { return max(vg.Length(c.cross.Outer/2)*c.unit, leastDot) }

// pipes returns where the pipes lie, from the left: one in the middle, as many beside it as find room.
func (c *Cut) pipes() []vg.Length {
	pitch := vg.Length(c.cross.Spacing) * c.unit
	n := max(1, int((c.wide/2-c.radius()-0.5*mm)/pitch))
	out := make([]vg.Length, 0, 2*n+1)
	for i := -n; i <= n; i++ {
		out = append(out, c.left+c.wide/2+vg.Length(i)*pitch)
	}
	return out
}

// place sets the notes down the right side in the order of what they point at, none over another, and finds the height.
func (c *Cut) place() {
	x, pipes := c.cross, c.pipes()
	last, right := pipes[len(pipes)-1], c.left+c.wide-3*mm
	pitch := vg.Length(x.Spacing) * c.unit
	c.add(x.Notes.Sensor, last-pitch/2, c.at(x.Sensor))
	c.add(x.Notes.Pipe, last+c.radius(), c.at(x.Depth))
	from := 0.0
	for _, l := range x.Layers {
		c.add(l.Note, right, c.free(c.at(from), c.at(from+l.Thick)))
		from += l.Thick
	}
	c.add(x.Notes.Insulation, right, c.underside()-layHigh/2)
	c.add(x.Notes.Below, right, c.underside()+belowHigh/2)
	slices.SortStableFunc(c.beside, func(a, b note) int { return int(math.Copysign(1, float64(a.down-b.down))) })
	end := vg.Length(0)
	for i := range c.beside {
		n := &c.beside[i]
		high := vg.Length(len(n.lines)) * textHigh
		n.top = max(end, n.down-high/2)
		end = n.top + high + 0.5*mm
	}
	c.Height = max(end, c.underside()+belowHigh+spacingLow)
}

func (c *Cut) add(text string, x, down vg.Length) {
	if text != "" {
		c.beside = append(c.beside, note{x: x, down: down, lines: wrap(c.face, text, notesWide)})
	}
}

// free returns the height within a layer that lies farthest from what else is pointed at.
func (c *Cut) free(from, to vg.Length) vg.Length {
	best, farthest := (from+to)/2, vg.Length(-1)
	for _, share := range []vg.Length{0.5, 0.35, 0.65, 0.2, 0.8} {
		at := from + share*(to-from)
		nearest := vg.Length(math.Inf(1))
		for _, depth := range []float64{c.cross.Sensor, c.cross.Depth} {
			nearest = min(nearest, vg.Length(math.Abs(float64(at-c.at(depth)))))
		}
		if nearest > farthest+0.5*mm {
			best, farthest = at, nearest
		}
	}
	return best
}

// wrap breaks a text at its spaces to a width; a word wider than that is broken where it must.
func wrap(face font.Face, text string, wide vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for face.Width(word) > wide {
			part := []rune(word)
			n := len(part) - 1
			for n > 1 && face.Width(string(part[:n])) > wide {
				n--
			}
			if line != "" {
				lines, line = append(lines, line), ""
			}
			lines, word = append(lines, string(part[:n])), string(part[n:])
		}
		switch joined := strings.TrimSpace(line + " " + word); {
		case face.Width(joined) <= wide:
			line = joined
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}

// Draw draws the cut on a canvas of the width that it was fitted to and of its height.
func (c Cut) Draw(on vg.Canvas, _, height vg.Length) {
	p := pen{on: on, face: c.face, height: height}
	c.layers(p)
	c.below(p)
	c.frame(p)
	c.leaders(p)
	c.heaters(p)
	c.dimensions(p)
	c.words(p)
}
