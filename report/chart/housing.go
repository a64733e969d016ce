package chart

import (
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Housing is a cut through a detector's housing, without scale: the detector flush with the surface, its drain, its conduit, and the slab sensor midway
// between two pipes or cables. Without words of a thing there is none.
type Housing struct {
	Slope  float64 // of the surface, towards the right
	Base   Base
	Course Fill // of pavers, stone or asphalt above the slab sensor; Empty where that lies in the concrete
	Words  HousingWords
}

// Base is where a housing's drain goes.
type Base uint8

// The bases.
const (
	Gravel   Base = iota
	Hole          // through what lies below, over open air
	Membrane      // above one
	Found         // as it was cast in
)

// HousingWords are the notes of a housing.
type HousingWords struct {
	Detector, Housing, Base, Conduit, Sensor, Pipe string
}

const (
	housingWide  = 62 * mm // of the notes
	slabHigh     = 17 * mm
	baseHigh     = 9 * mm
	steepestDraw = 0.08
	pipesDown    = 8 * mm
	tipDown      = 4.6 * mm // of the slab sensor: in the concrete, or in the bedding
	tipClear     = 1.2 * mm // below the course
	pieceWide    = 7 * mm
)

// Detail is a housing fitted to a width: it knows its height.
type Detail struct {
	Height vg.Length
	of     Housing
	face   font.Face
	wide   vg.Length // of the cut
	notes  []note
}

// Housing fits a cut through a housing to a width.
func (l Look) Housing(h Housing, width vg.Length) Detail {
	d := Detail{of: h, face: l.Fonts.Lookup(font.Font{Size: labelSize}, labelSize), wide: width - housingWide - notesGap}
	x := d.middle()
	add := func(text string, at, down vg.Length) {
		if text != "" {
			d.notes = append(d.notes, note{x: at, down: down, lines: wrap(d.face, text, housingWide)})
		}
	}
	add(h.Words.Detector, x+5*mm, d.surface(x)+0.6*mm)
	add(h.Words.Sensor, d.sensor(), d.tip())
	add(h.Words.Pipe, d.sensor()+8*mm, d.surface(d.sensor())+pipesDown)
	add(h.Words.Conduit, d.wide-8*mm, d.conduit())
	add(h.Words.Housing, x+4.5*mm, d.surface(x)+13.4*mm)
	add(h.Words.Base, x+7*mm, d.underside()+0.55*baseHigh)
	end := vg.Length(0)
	for i := range d.notes {
		n := &d.notes[i]
		high := vg.Length(len(n.lines)) * textHigh
		n.top = max(end, n.down-high/2)
		end = n.top + high + 0.5*mm
	}
	d.Height = max(end, d.underside()+baseHigh+mm)
	return d
}

func (d *Detail) middle() vg.Length    { return d.wide * 0.3 }
func (d *Detail) sensor() vg.Length    { return d.wide * 0.7 }
func (d *Detail) conduit() vg.Length   { return d.surface(d.middle()) + 10.6*mm }
func (d *Detail) underside() vg.Length { return mm + d.fall() + slabHigh }
func (d *Detail) slope() vg.Length     { return vg.Length(min(max(d.of.Slope, 0), steepestDraw)) }
func (d *Detail) fall() vg.Length      { return d.slope() * d.wide }

// surface returns the height of the surface.
func (d *Detail) surface(x vg.Length) vg.Length { return mm + d.slope()*x }

// tip returns the height of the slab sensor: with the pipes under a hot course.
func (d *Detail) tip() vg.Length {
	down := tipDown
	if d.of.Course == Asphalt {
		down = pipesDown
	}
	return d.surface(d.sensor()) + down
}

// course draws what lies above the slab sensor and is not concrete.
func (d *Detail) course(p pen) {
	if d.of.Course == Empty {
		return
	}
	deep := d.tip() - d.surface(d.sensor()) - tipClear
	p.shape(tones[d.of.Course], 0, d.surface(0), d.wide, d.surface(d.wide), d.wide, d.surface(d.wide)+deep, 0, d.surface(0)+deep)
	p.stroke(20, thin)
	p.line(0, d.surface(0)+deep, d.wide, d.surface(d.wide)+deep)
	if joints[d.of.Course] == 0 {
		return
	}
	for x := pieceWide; x < d.wide; x += pieceWide {
		p.line(x, d.surface(x), x, d.surface(x)+deep)
	}
}

// Draw draws the detail on a canvas of the width that it was fitted to and of its height.
func (d Detail) Draw(on vg.Canvas, _, height vg.Length) {
	p := pen{on: on, face: d.face, height: height}
	p.shape(tones[Concrete], 0, d.surface(0), d.wide, d.surface(d.wide), d.wide, d.underside(), 0, d.underside())
	d.course(p)
	d.base(p)
	p.stroke(20, thick)
	p.line(0, d.surface(0), d.wide, d.surface(d.wide))
	p.stroke(20, thin)
	p.line(0, d.underside(), d.wide, d.underside())
	d.conduits(p)
	d.pipes(p)
	d.housing(p)
	for _, n := range d.notes {
		p.stroke(60, hairline)
		p.line(n.x, n.down, d.wide+1.5*mm, n.down, d.wide+notesGap-mm, n.top+textHigh/2)
		for i, line := range n.lines {
			p.write(line, d.wide+notesGap, n.top+(vg.Length(i)+0.5)*textHigh, fromHere)
		}
	}
}

// housing draws the housing with the detector in it.
func (d *Detail) housing(p pen) {
	const half, deep = 4.5 * mm, 15 * mm
	x := d.middle()
	left, right := x-half, x+half
	p.shape(255, left, d.surface(left), right, d.surface(right), right, d.surface(x)+deep, left, d.surface(x)+deep)
	p.stroke(20, thick)
	if d.of.Base == Found {
		p.stroke(20, thick, dashOn, dashOff)
	}
	p.line(left, d.surface(left), left, d.surface(x)+deep, right, d.surface(x)+deep, right, d.surface(right))
	p.shape(60, left+0.5*mm, d.surface(left), right-0.5*mm, d.surface(right), right-0.5*mm, d.surface(right)+3*mm, left+0.5*mm, d.surface(left)+3*mm)
	p.stroke(20, thin) // the lead
	p.line(x, d.surface(x)+3*mm, x, d.surface(x)+7*mm, x+2*mm, d.conduit(), right, d.conduit())
}

// conduits draws the conduit of the lead, and that of the slab sensor.
func (d *Detail) conduits(p pen) {
	from, at := d.middle()+4.5*mm, d.conduit()
	p.box(255, from, at-0.8*mm, d.wide, at+0.8*mm)
	p.stroke(20, thin)
	p.line(from, at-0.8*mm, d.wide, at-0.8*mm)
	p.line(from, at+0.8*mm, d.wide, at+0.8*mm)
	p.line(from, at, d.wide, at)
	if d.of.Words.Sensor == "" {
		return
	}
	x := d.sensor()
	p.stroke(20, thin, 2, 1)
	p.line(x, d.tip(), x, at-0.8*mm)
}

// pipes draws two pipes or cables with the slab sensor midway.
func (d *Detail) pipes(p pen) {
	x := d.sensor()
	if d.of.Words.Pipe != "" {
		for _, at := range []vg.Length{x - 8*mm, x + 8*mm} {
			p.disc(30, at, d.surface(x)+pipesDown, 1.3*mm)
			p.disc(255, at, d.surface(x)+pipesDown, 0.9*mm)
		}
	}
	if d.of.Words.Sensor != "" {
		drawSymbol(p, Box, x, d.tip(), false)
	}
}

// base draws what lies below the housing, and where its drain goes.
func (d *Detail) base(p pen) {
	x, under := d.middle(), d.underside()
	from := d.surface(x) + 15*mm
	drain := func(to vg.Length) {
		p.box(255, x-0.7*mm, from, x+0.7*mm, to)
		p.stroke(20, thin)
		p.line(x-0.7*mm, from, x-0.7*mm, to)
		p.line(x+0.7*mm, from, x+0.7*mm, to)
	}
	switch d.of.Base {
	case Gravel:
		d.gravel(p)
		drain(under + 3*mm)
	case Hole:
		drain(under + 2*mm)
		p.stroke(20, thin)
		p.line(x-1.6*mm, under+2*mm, x-0.7*mm, under+2*mm)
		p.line(x+0.7*mm, under+2*mm, x+1.6*mm, under+2*mm)
		p.disc(120, x, under+4*mm, 0.35*mm)
		p.disc(120, x, under+6*mm, 0.35*mm)
	case Membrane:
		p.box(60, 0, under+0.8*mm, d.wide, under+1.4*mm)
		p.box(255, x-0.7*mm, from, x+0.7*mm, under)
		p.box(255, 0, under-1.4*mm, x+0.7*mm, under)
		p.stroke(20, thin)
		p.line(x+0.7*mm, from, x+0.7*mm, under)
		p.line(0, under-1.4*mm, x-0.7*mm, under-1.4*mm, x-0.7*mm, from)
	case Found:
		p.stroke(20, thin, 1, 2)
		p.line(x, from, x, under+4*mm)
	}
}

// gravel draws washed gravel below the housing.
func (d *Detail) gravel(p pen) {
	const size, pitch = 0.75 * mm, 1.9 * mm
	x, row := d.middle(), 0
	for down := d.underside() + mm; down < d.underside()+baseHigh-size; down += pitch * 0.87 {
		shift := vg.Length(row%2) * pitch / 2
		for at := x - 9*mm + shift; at <= x+9*mm; at += pitch {
			p.disc(120, at, down, size)
			p.disc(240, at, down, size*0.75)
		}
		row++
	}
}
