package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/page"
	"github.com/johnfercher/maroto/v2/pkg/core"
)

// mostEmpty is the part of a page that may stay empty so that rows stay whole: a tenth.
const mostEmpty = 10

// flow hands rows to maroto page by page: headings and other kept rows stay with what follows, tables begin each page with their heading, and a figure that
// finds no room lets what follows it in its chapter go before it. It returns the number of pages.
func flow(m core.Maroto, rows []core.Row, room float64) int {
	f := &filler{m: m, room: room, pages: 1}
	cut := false // rows that should be whole are being divided
	for i := 0; i < len(rows); {
		group := together(rows[i:], !cut)
		if f.left() < group.height && f.muchLeft() {
			cut = true
			group = together(rows[i:], false)
		}
		i += len(group.rows)
		if last, ok := group.rows[len(group.rows)-1].(*block); !ok || !last.whole {
			cut = false
		}
		f.add(group)
	}
	f.release()
	return f.pages
}

// group is rows that stay on one page, with the room that they want.
type group struct {
	rows         []core.Row
	height, need float64
	figure       bool // may stand behind what follows it
	begins       bool // a chapter
}

// together returns the first rows that stay on one page. Gaps before a kept row count with it.
func together(rows []core.Row, whole bool) (g group) {
	for i, r := range rows {
		g.height += r.GetHeight(nil, nil)
		b, ok := r.(*block)
		if ok {
			g.need = max(g.need, b.need)
			g.figure = g.figure || b.figure
			g.begins = g.begins || b.begins
		}
		ends := ok && b.figure && !partOfFigure(rows[i+1:])
		if ends || !ok || !(b.keep || b.gap || whole && b.whole) {
			g.rows = rows[:i+1]
			return g
		}
	}
	g.rows = rows
	return g
}

// partOfFigure says whether a figure begins or goes on.
func partOfFigure(rows []core.Row) bool {
	if len(rows) == 0 {
		return false
	}
	b, ok := rows[0].(*block)
	return ok && b.figure
}

// filler fills pages.
type filler struct {
	m          core.Maroto
	room, used float64
	pages      int
	held       []core.Row // a figure that found no room
	due        bool       // it stands where the next text or table begins: the page has been turned
}

func (f *filler) left() float64  { return f.room - f.used }
func (f *filler) muchLeft() bool { return f.left() > f.room/mostEmpty }

func (f *filler) put(r core.Row) {
	f.used += r.GetHeight(nil, nil)
	if b, ok := r.(*block); ok && b.entry != nil {
		b.entry.page = f.pages
	}
	f.m.AddRows(r)
}

// turn ends the page that is begun. A figure that waits is due on the next one, where what runs over has come to its end.
func (f *filler) turn() {
	f.m.AddPages(page.New())
	f.pages, f.used, f.due = f.pages+1, 0, f.held != nil
}

// release places a figure that waits.
func (f *filler) release() {
	held, high := f.held, 0.0
	f.held, f.due = nil, false
	for _, r := range held {
		high += r.GetHeight(nil, nil)
	}
	if f.used > 0 && high > f.left() {
		f.turn()
	}
	f.rows(held)
}

// fresh says whether a group begins something: a text, a table or a heading, before which there is a gap.
func (g group) fresh() bool {
	b, ok := g.rows[0].(*block)
	return ok && b.gap
}

// add places a group, on a new page where it does not fit.
func (f *filler) add(g group) {
	if g.begins || f.due && g.fresh() {
		f.release()
	}
	short := func() bool { return f.used > 0 && (g.height > f.left() || f.left() < g.need) }
	if g.figure && !g.begins && f.held == nil && short() && f.muchLeft() {
		f.held = g.rows
		return
	}
	if short() {
		for f.turn(); short() && g.height <= f.room; { // where a figure waited, it may have taken the room
			f.turn()
		}
		if b, ok := g.rows[0].(*block); ok {
			for _, h := range b.head {
				f.put(h)
			}
		}
	}
	f.rows(g.rows)
}

// rows places rows that belong together; gaps are dropped at the top and at the end of a page, and a group higher than a page is divided.
func (f *filler) rows(list []core.Row) {
	for _, r := range list {
		b, ok := r.(*block)
		if ok && b.gap && (f.used == 0 || b.height > f.left()) {
			continue
		}
		if f.used > 0 && r.GetHeight(nil, nil) > f.left() {
			f.turn()
		}
		f.put(r)
	}
}

// figure makes rows a figure: they stay together, and may stand behind what follows them in their chapter.
func figure(rows []core.Row) []core.Row {
	bind(rows)
	for _, r := range rows {
		r.(*block).figure = true
	}
	return rows
}

// leadMM is about how much of what stands before them rows take along to a page of their own.
const leadMM = 25

// follow makes the last rows stay with what follows them.
func follow(rows []core.Row) {
	height := 0.0
	for i := len(rows) - 1; i >= 0 && height < leadMM; i-- {
		b, ok := rows[i].(*block)
		if height += rows[i].GetHeight(nil, nil); !ok || height > 2*leadMM {
			return
		}
		b.keep = true
	}
}
