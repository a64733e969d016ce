package chart

import (
	"math"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// Plan is a pavement seen from above: a rectangle that falls towards its right end, what lies on and beside it, and devices with numbers. Lengths are
// in m; fractions run from the left and from the top. Without words of a thing there is none.
type Plan struct {
	Length, Width float64
	Level         bool    // without a slope arrow
	Shade         float64 // fraction in shade, from the bottom
	Lanes         int     // of vehicles, along the length
	Devices       []Device
	Words         PlanWords
}

// Device is a device on the plan.
type Device struct {
	Kind          Symbol
	Along, Across float64
	Number        string
	There         bool // in place; where it lies is not known
}

// Symbol is how a device is drawn.
type Symbol uint8

// The symbols.
const (
	Disc     Symbol = iota // in the pavement
	Box                    // in the slab
	Triangle               // looks at the sky
)

// PlanWords are the words of a plan: on its dimension lines, at the panel, and of its legend.
type PlanWords struct {
	Length, Width      string
	FromLow, FromSide  string // of the first device
	Panel              string
	Slope, Drain       string
	Sun, Shade, Lanes  string
	Discs, Boxes, Tops string // of the symbols
	Run                string // of the line to the panel
}

// planScales are the denominators that a plan is drawn to.
var planScales = []float64{10, 15, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1250, 1500, 2000, 2500, 3000, 4000, 5000, 7500, 10000, 20000, 50000}

const (
	legendWide  = 50 * mm
	legendGap   = 4 * mm
	legendIcon  = 7 * mm
	planHigh    = 38 * mm // of the pavement on paper, at most
	planBeside  = 4.5 * mm
	symbolSize  = 1.1 * mm // radius
	panelHigh   = 3 * mm
	trackM      = 0.9 // from the middle of a lane to a wheel track [m]
	metre       = 1000 * mm
	dashOn      = vg.Length(3)
	dashOff     = vg.Length(2)
	leastPlanMM = 1.5 * mm // of a rectangle's side on paper
)

// Sketch is a plan fitted to a width: it knows its scale and its height.
type Sketch struct {
	Scale     float64 // one to this
	Height    vg.Length
	plan      Plan
	face      font.Face
	unit      vg.Length // of a m
	left, top vg.Length // of the rectangle
	wide, low vg.Length // its sides
	legend    vg.Length // from the left
	dimsAbove bool
	items     []item
	taken     []area
}

// item is a line of the legend.
type item struct {
	icon  func(p pen, x, down vg.Length)
	lines []string
	top   vg.Length
}

// area is a rectangle on the drawing.
type area struct{ left, top, right, bottom vg.Length }

func (a area) overlaps(b area) bool {
	return min(a.right, b.right) > max(a.left, b.left) && min(a.bottom, b.bottom) > max(a.top, b.top)
}

// Plan fits a plan to a width. It has the greatest of the usual scales at which the rectangle finds room.
func (l Look) Plan(plan Plan, width vg.Length) Sketch {
	s := Sketch{plan: plan, face: l.Fonts.Lookup(font.Font{Size: labelSize}, labelSize), legend: width - legendWide}
	s.left = planBeside + 2*mm + s.face.Width(plan.Words.Width)
	right := planBeside + 2*mm + max(s.face.Width(plan.Words.FromSide), s.face.Width(plan.Words.FromLow), s.face.Width(plan.Words.Panel)/2)
	room := s.legend - legendGap - s.left - right
	for _, scale := range planScales {
		s.Scale, s.unit = scale, metre/vg.Length(scale)
		if vg.Length(plan.Length)*s.unit <= room && vg.Length(plan.Width)*s.unit <= planHigh {
			break
		}
	}
	s.wide, s.low = max(vg.Length(plan.Length)*s.unit, leastPlanMM), max(vg.Length(plan.Width)*s.unit, leastPlanMM)
	s.place()
	s.entries()
	return s
}

// place finds how far the drawing reaches over and under the rectangle. Dimensions stand on the side without a device.
func (s *Sketch) place() {
	over, under := vg.Length(0), vg.Length(0)
	for _, d := range s.plan.Devices {
		at := vg.Length(d.Across) * s.low
		over, under = max(over, -at), max(under, at-s.low)
	}
	s.dimsAbove = under > 0 && over == 0
	dims := 2*planBeside + mm
	if s.dimsAbove {
		over = dims
	} else {
		under = max(under, dims)
	}
	s.top = over + 8*mm // the sun, and numbers over devices
	s.Height = s.top + s.low + under + 5.5*mm + panelHigh
}

// entries sets the legend down the right side.
func (s *Sketch) entries() {
	w := s.plan.Words
	symbol := func(k Symbol) func(pen, vg.Length, vg.Length) {
		return func(p pen, x, down vg.Length) { drawSymbol(p, k, x+legendIcon/2-mm, down, false) }
	}
	line := func(grey uint8, width vg.Length, dashes ...vg.Length) func(pen, vg.Length, vg.Length) {
		return func(p pen, x, down vg.Length) {
			p.stroke(grey, width, dashes...)
			p.line(x, down, x+legendIcon-2*mm, down)
		}
	}
	end := vg.Length(0)
	add := func(text string, icon func(pen, vg.Length, vg.Length)) {
		if text == "" {
			return
		}
		i := item{icon: icon, lines: wrap(s.face, text, legendWide-legendIcon), top: end}
		end += vg.Length(len(i.lines))*textHigh + mm
		s.items = append(s.items, i)
	}
	add(w.Discs, symbol(Disc))
	add(w.Boxes, symbol(Box))
	add(w.Tops, symbol(Triangle))
	add(w.Run, line(60, thin, 1, 2))
	add(w.Slope, func(p pen, x, down vg.Length) { arrow(p, x, x+legendIcon-2*mm, down) })
	add(w.Drain, line(20, 2))
	add(w.Sun, func(p pen, x, down vg.Length) { sun(p, x+legendIcon/2-mm, down) })
	add(w.Shade, func(p pen, x, down vg.Length) {
		slants(p, area{x, down - 1.2*mm, x + legendIcon - 2*mm, down + 1.2*mm})
	})
	add(w.Lanes, line(150, thin, dashOn, dashOff))
	s.Height = max(s.Height, end)
}

// at returns where a device lies.
func (s *Sketch) at(d Device) (x, down vg.Length) {
	return s.left + vg.Length(d.Along)*s.wide, s.top + vg.Length(d.Across)*s.low
}

// Draw draws the sketch on a canvas of the width that it was fitted to and of its height.
func (s Sketch) Draw(on vg.Canvas, _, height vg.Length) {
	p := pen{on: on, face: s.face, height: height}
	s.taken = nil
	s.ground(p)
	s.panel(p)
	s.dimensions(p)
	s.devices(p)
	for _, i := range s.items {
		i.icon(p, s.legend, i.top+textHigh/2)
		for n, line := range i.lines {
			p.write(line, s.legend+legendIcon, i.top+(vg.Length(n)+0.5)*textHigh, fromHere)
		}
	}
}

// ground draws the rectangle and what lies on it.
func (s *Sketch) ground(p pen) {
	right, bottom := s.left+s.wide, s.top+s.low
	p.box(245, s.left, s.top, right, bottom)
	if s.plan.Words.Shade != "" {
		slants(p, area{s.left, bottom - vg.Length(s.plan.Shade)*s.low, right, bottom})
	}
	s.tracks(p)
	p.stroke(20, thick)
	p.line(s.left, s.top, right, s.top, right, bottom, s.left, bottom, s.left, s.top)
	s.taken = append(s.taken, area{right - 0.4*mm, s.top, right + 1.8*mm, bottom})
	if s.plan.Words.Drain != "" {
		p.stroke(20, 2)
		p.line(right+1.1*mm, s.top, right+1.1*mm, bottom)
	}
	if !s.plan.Level {
		arrow(p, s.left+0.12*s.wide, s.left+0.42*s.wide, s.top+0.42*s.low)
	}
	if s.plan.Words.Sun != "" {
		sun(p, s.left+2*mm, s.top-s.overDims()-3.4*mm)
	}
}

// overDims returns how high dimensions stand over the rectangle.
func (s *Sketch) overDims() vg.Length {
	if s.dimsAbove {
		return 2*planBeside + mm
	}
	return 0
}

// tracks draws two wheel tracks to a lane.
func (s *Sketch) tracks(p pen) {
	for i := range s.plan.Lanes {
		middle := s.top + s.low*(vg.Length(i)+0.5)/vg.Length(s.plan.Lanes)
		apart := min(vg.Length(trackM)*s.unit, 0.3*s.low/vg.Length(s.plan.Lanes))
		p.stroke(150, thin, dashOn, dashOff)
		p.line(s.left, middle-apart, s.left+s.wide, middle-apart)
		p.line(s.left, middle+apart, s.left+s.wide, middle+apart)
	}
}

// dimensions draws the sides of the rectangle and where the first device lies on it.
func (s *Sketch) dimensions(p pen) {
	right, bottom := s.left+s.wide, s.top+s.low
	side, away := bottom, vg.Length(1)
	if s.dimsAbove {
		side, away = s.top, -1
	}
	w := s.plan.Words
	level := func(text string, from, to, down, x, part vg.Length) {
		p.stroke(60, hairline)
		p.line(from, side+away*0.8*mm, from, down+away*mm)
		p.line(to, side+away*0.8*mm, to, down+away*mm)
		p.line(from, down, to, down)
		for _, at := range []vg.Length{from, to} {
			p.line(at-tick, down+tick, at+tick, down-tick)
		}
		s.write(p, text, x, down, part)
	}
	upright := func(text string, from, to, x, out, part vg.Length) {
		p.stroke(60, hairline)
		for _, at := range []vg.Length{from, to} {
			p.line(x-tick, at+tick, x+tick, at-tick)
		}
		p.line(x, from, x, to)
		s.write(p, text, x+out, (from+to)/2, part)
	}
	upright(w.Width, s.top, bottom, s.left-planBeside, -1.4*mm, upToHere)
	row := side + away*2*planBeside
	p.stroke(60, hairline)
	level("", s.left, right, row, 0, 0)
	half := s.face.Width(w.Length) / 2
	p.box(255, s.left+s.wide/2-half-mm, row-textHigh/2, s.left+s.wide/2+half+mm, row+textHigh/2)
	s.write(p, w.Length, s.left+s.wide/2, row, around)
	if w.FromLow == "" || len(s.plan.Devices) == 0 {
		return
	}
	x, down := s.at(s.plan.Devices[0])
	level(w.FromLow, x, right, side+away*planBeside, right+1.5*mm, fromHere)
	upright(w.FromSide, s.top, down, right+planBeside, 1.3*mm, fromHere)
}

// panel draws the way from the first device to the panel, which lies anywhere.
func (s *Sketch) panel(p pen) {
	if s.plan.Words.Panel == "" || len(s.plan.Devices) == 0 {
		return
	}
	x, down := s.at(s.plan.Devices[0])
	half := s.face.Width(s.plan.Words.Panel)/2 + 1.2*mm
	bottom := s.Height
	if h := s.panelFoot(); h < bottom {
		bottom = h
	}
	middle := max(s.left-planBeside+half, x-26*mm)
	p.stroke(60, thin, 1, 2)
	p.line(x, down, middle, bottom-panelHigh-0.6*mm)
	p.box(255, middle-half, bottom-panelHigh-0.8*mm, middle+half, bottom-0.2*mm)
	p.stroke(20, thin)
	top, foot := bottom-panelHigh-0.8*mm, bottom-0.2*mm
	p.line(middle-half, top, middle+half, top, middle+half, foot, middle-half, foot, middle-half, top)
	s.write(p, s.plan.Words.Panel, middle, (top+foot)/2, around)
}

// panelFoot is the height of the drawing without its legend.
func (s *Sketch) panelFoot() vg.Length {
	under := vg.Length(0)
	for _, d := range s.plan.Devices {
		under = max(under, vg.Length(d.Across)*s.low-s.low)
	}
	if !s.dimsAbove {
		under = max(under, 2*planBeside+mm)
	}
	return s.top + s.low + under + 5.5*mm + panelHigh
}

// write writes a text and remembers its place.
func (s *Sketch) write(p pen, text string, x, middle, part vg.Length) {
	if text == "" {
		return
	}
	wide := s.face.Width(text)
	s.taken = append(s.taken, area{x - part*wide, middle - textHigh/2, x - part*wide + wide, middle + textHigh/2})
	p.write(text, x, middle, part)
}

// devices draws the symbols, then each number as near to its own as there is room.
func (s *Sketch) devices(p pen) {
	for _, d := range s.plan.Devices {
		x, down := s.at(d)
		s.taken = append(s.taken, area{x - symbolSize, down - symbolSize, x + symbolSize, down + symbolSize})
	}
	for _, d := range s.plan.Devices {
		x, down := s.at(d)
		s.number(p, d.Number, x, down)
	}
	for _, d := range s.plan.Devices {
		x, down := s.at(d)
		drawSymbol(p, d.Kind, x, down, d.There)
	}
}

// number writes a number beside its symbol; where it stands farther off, a line leads to it.
func (s *Sketch) number(p pen, text string, x, down vg.Length) {
	wide := s.face.Width(text) + 0.6*mm
	for _, far := range []vg.Length{2.4 * mm, 3.6 * mm, 5 * mm, 7 * mm, 9 * mm, 12 * mm, 16 * mm} {
		for _, turn := range []float64{-0.5, -0.25, -0.75, 0.25, 0.75, 0, 1, 0.5} {
			sin, cos := math.Sincos(turn * math.Pi)
			at := area{x + vg.Length(cos)*far - wide/2, down + vg.Length(sin)*far - textHigh/2, x + vg.Length(cos)*far + wide/2, down + vg.Length(sin)*far + textHigh/2}
			if at.top < 0 || at.left < 0 || at.bottom > s.Height || at.right > s.legend || s.isTaken(at) {
				continue
			}
			s.taken = append(s.taken, at)
			if far > 2.4*mm {
				p.stroke(60, hairline)
				p.line(x, down, x+vg.Length(cos)*(far-1.2*mm), down+vg.Length(sin)*(far-1.2*mm))
			}
			p.box(250, at.left+0.2*mm, at.top+0.2*mm, at.right-0.2*mm, at.bottom-0.2*mm)
			p.write(text, x+vg.Length(cos)*far, down+vg.Length(sin)*far, around)
			return
		}
	}
}

func (s *Sketch) isTaken(a area) bool {
	for _, t := range s.taken {
		if a.overlaps(t) {
			return true
		}
	}
	return false
}

// drawSymbol draws a device; one that is in place is hollow.
func drawSymbol(p pen, k Symbol, x, down vg.Length, there bool) {
	r := symbolSize
	switch k {
	case Disc:
		p.disc(20, x, down, r)
		if there {
			p.disc(255, x, down, 0.65*r)
		}
	case Box:
		p.box(20, x-0.8*r, down-0.8*r, x+0.8*r, down+0.8*r)
		inner := vg.Length(0.3)
		if there {
			inner = 0.5
		}
		p.box(255, x-inner*r, down-inner*r, x+inner*r, down+inner*r)
	case Triangle:
		grey := uint8(20)
		p.shape(grey, x, down-1.2*r, x+1.1*r, down+0.9*r, x-1.1*r, down+0.9*r)
		if there {
			p.shape(255, x, down-0.5*r, x+0.5*r, down+0.5*r, x-0.5*r, down+0.5*r)
		}
	}
}

// arrow draws a slope arrow to the right.
func arrow(p pen, from, to, down vg.Length) {
	p.stroke(40, thick)
	p.line(from, down, to-mm, down)
	p.shape(40, to, down, to-1.8*mm, down-0.8*mm, to-1.8*mm, down+0.8*mm)
}

// sun draws the sun.
func sun(p pen, x, down vg.Length) {
	const r = 0.9 * mm
	p.stroke(40, thin)
	for i := range 8 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 4)
		p.line(x+vg.Length(cos)*1.3*r, down+vg.Length(sin)*1.3*r, x+vg.Length(cos)*2*r, down+vg.Length(sin)*2*r)
	}
	p.disc(40, x, down, r)
	p.disc(255, x, down, r*0.7)
}

// slants draws slanting lines over an area.
func slants(p pen, a area) {
	p.stroke(190, 0.4)
	high := a.bottom - a.top
	for x := a.left - high; x < a.right; x += 2.2 * mm {
		x1, d1, x2, d2 := x, a.bottom, x+high, a.top
		if x1 < a.left {
			x1, d1 = a.left, a.bottom-(a.left-x)
		}
		if x2 > a.right {
			x2, d2 = a.right, a.top+(x+high-a.right)
		}
		p.line(x1, d1, x2, d2)
	}
}

// shape fills a shape.
func (p pen) shape(grey uint8, at ...vg.Length) {
	p.stroke(grey, 0)
	path := p.path(at)
	path.Close()
	p.on.Fill(path)
}
