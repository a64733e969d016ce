package chart

import (
	"math"

	"gonum.org/v1/plot/vg"
)

const (
	thick = vg.Length(0.9)
	thin  = vg.Length(0.5)
)

// tones of the fills.
var tones = map[Fill]uint8{Empty: 255, Concrete: 233, Asphalt: 178, Pavers: 214, Stone: 224, Sand: 247, Earth: 255}

// joints are the lengths of pavers and stones [mm].
var joints = map[Fill]float64{Pavers: 100, Stone: 300}

// grains are the distance between grains on paper and their grey.
var grains = map[Fill]struct {
	pitch vg.Length
	grey  uint8
}{Concrete: {3 * mm, 140}, Asphalt: {1.9 * mm, 70}, Sand: {1.5 * mm, 150}}

// layers fills the pavement from the top.
func (c *Cut) layers(p pen) {
	from := 0.0
	for _, l := range c.cross.Layers {
		top, bottom := c.at(from), c.at(from+l.Thick)
		p.box(tones[l.Fill], c.left, top, c.left+c.wide, bottom)
		c.grain(p, l.Fill, top, bottom)
		c.jointed(p, l.Fill, top, bottom)
		from += l.Thick
	}
}

// grain strews grains over a layer, the same ones every time.
func (c *Cut) grain(p pen, f Fill, top, bottom vg.Length) {
	g, has := grains[f]
	if !has {
		return
	}
	const size = 0.25 * mm
	p.stroke(g.grey, 0.5)
	seed := uint32(1)
	strewn := func() vg.Length { // 0 to 1
		seed = seed*1664525 + 1013904223
		return vg.Length(seed>>8) / (1 << 24)
	}
	var path vg.Path
	for down := top; down < bottom; down += g.pitch {
		for x := c.left; x < c.left+c.wide; x += g.pitch {
			gx, gd := x+strewn()*g.pitch, down+strewn()*g.pitch
			if gx+size < c.left+c.wide && gd > top+size && gd < bottom-size {
				path.Move(p.point(gx, gd))
				path.Line(p.point(gx+size, gd+(strewn()-0.5)*2*size))
			}
		}
	}
	p.on.Stroke(path)
}

// jointed draws the joints of pavers or stones at their true distance.
func (c *Cut) jointed(p pen, f Fill, top, bottom vg.Length) {
	length, has := joints[f]
	if !has {
		return
	}
	p.stroke(90, thin)
	pitch := vg.Length(length) * c.unit
	for x := c.left + c.wide/2 + pitch*0.37; x < c.left+c.wide; x += pitch {
		p.line(x, top, x, bottom)
	}
	for x := c.left + c.wide/2 - pitch*0.63; x > c.left; x -= pitch {
		p.line(x, top, x, bottom)
	}
}

// below draws what lies under the slab.
func (c *Cut) below(p pen) {
	slab, under, right := c.at(c.cross.thick()), c.underside(), c.left+c.wide
	if c.cross.Insulated {
		p.stroke(110, 0.4)
		const pitch = 1.7 * mm
		zigzag := []vg.Length{c.left, under}
		for x, up := c.left+pitch/2, true; x <= right; x, up = x+pitch/2, !up {
			at := under
			if up {
				at = slab
			}
			zigzag = append(zigzag, x, at)
		}
		p.line(zigzag...)
	}
	if c.cross.Below == Earth {
		p.stroke(150, 0.4)
		const slant = belowHigh * 0.8
		for x := c.left + slant; x <= right; x += 2.4 * mm {
			p.line(x, under, x-slant, under+slant)
		}
	}
}

// frame draws the surface, the borders of layers and the broken sides.
func (c *Cut) frame(p pen) {
	right := c.left + c.wide
	p.stroke(20, thick)
	p.line(c.left, c.at(0), right, c.at(0))
	p.stroke(20, thin)
	depth := 0.0
	for _, l := range c.cross.Layers {
		depth += l.Thick
		p.line(c.left, c.at(depth), right, c.at(depth))
	}
	p.line(c.left, c.underside(), right, c.underside())
	p.stroke(40, hairline)
	top, bottom := c.at(0)-mm, c.underside()+mm
	middle := (c.at(c.cross.Depth) + c.underside()) / 2 // off the dimension of the depth
	for _, x := range []vg.Length{c.left, right} {
		p.line(x, top, x, middle-1.2*mm, x-0.9*mm, middle-0.4*mm, x+0.9*mm, middle+0.4*mm, x, middle+1.2*mm, x, bottom)
	}
}

// leaders lead from what notes point at to the notes: level through the cut, so that none crosses another.
func (c *Cut) leaders(p pen) {
	right, notes := c.left+c.wide, c.left+c.wide+notesGap
	for _, n := range c.beside {
		p.stroke(60, hairline)
		p.line(n.x, n.down, right, n.down, notes-mm, n.top+textHigh/2)
	}
}

// heaters draws the pipes or cables and the sensor.
func (c *Cut) heaters(p pen) {
	x := c.cross
	pipes := c.pipes()
	down, radius := c.at(x.Depth), c.radius()
	for _, at := range pipes {
		p.disc(30, at, down, radius)
		if x.Bore > 0 {
			p.disc(255, at, down, radius*vg.Length(x.Bore/x.Outer))
		}
	}
	if x.Notes.Sensor == "" {
		return
	}
	pitch := vg.Length(x.Spacing) * c.unit
	at, half := pipes[len(pipes)-1]-pitch/2, 0.75*mm
	if apart := vg.Length(math.Abs(float64(c.at(x.Sensor) - down))); apart < radius+half {
		half = max(0.3*mm, min(half, pitch/2-radius-0.1*mm))
	}
	p.box(20, at-half, c.at(x.Sensor)-half, at+half, c.at(x.Sensor)+half)
	p.box(255, at-half*0.5, c.at(x.Sensor)-half*0.5, at+half*0.5, c.at(x.Sensor)+half*0.5)
}

// dimensions draws the dimension lines with their words.
func (c *Cut) dimensions(p pen) {
	x, pipes := c.cross, c.pipes()
	at := c.left
	for _, d := range []struct {
		text  string
		depth float64
	}{{x.Notes.Depth, x.Depth}, {x.Notes.Thick, x.thick()}} {
		if d.text == "" {
			continue
		}
		line := at - dimGap
		p.stroke(60, hairline)
		for _, depth := range []float64{0, d.depth} {
			p.line(c.left-mm, c.at(depth), line-mm, c.at(depth))
			p.line(line-tick, c.at(depth)+tick, line+tick, c.at(depth)-tick)
		}
		p.line(line, c.at(0), line, c.at(d.depth))
		p.write(d.text, line-mm, (c.at(0)+c.at(d.depth))/2, upToHere)
		at = line - mm - p.face.Width(d.text)
	}
	if x.Notes.Spacing == "" {
		return
	}
	low := c.underside() + belowHigh + 2*mm
	for _, pipe := range pipes[:2] {
		p.stroke(90, hairline, 3, 1.5)
		p.line(pipe, c.at(0)-2*mm, pipe, low+tick)
		p.stroke(60, hairline)
		p.line(pipe-tick, low+tick, pipe+tick, low-tick)
	}
	p.line(pipes[0], low, pipes[1], low)
	p.write(x.Notes.Spacing, (pipes[0]+pipes[1])/2, low+textHigh*0.75, around)
}

// words writes the notes beside the cut and those over its surface.
func (c *Cut) words(p pen) {
	for _, n := range c.beside {
		for i, line := range n.lines {
			p.write(line, c.left+c.wide+notesGap, n.top+(vg.Length(i)+0.5)*textHigh, fromHere)
		}
	}
	pipes := c.pipes()
	middle := pipes[len(pipes)/2]
	between := middle + vg.Length(c.cross.Spacing)*c.unit/2
	for _, n := range []struct {
		text     string
		x, shift vg.Length
		part     vg.Length
	}{{c.cross.Notes.Over, middle, -mm, upToHere}, {c.cross.Notes.Midway, between, mm, fromHere}} {
		if n.text == "" {
			continue
		}
		p.stroke(60, hairline)
		p.line(n.x, textHigh*0.2, n.x, c.at(0))
		p.disc(20, n.x, c.at(0), 0.35*mm)
		p.write(n.text, n.x+n.shift, textHigh*0.6, n.part)
	}
}
