package submittal

import (
	"github.com/johnfercher/maroto/v2/pkg/components/col"
	"github.com/johnfercher/maroto/v2/pkg/core"
)

// item is an entry of a list in columns.
type item struct{ mark, text string }

// columnStyle is how lists in columns are set.
var columnStyle = style{size: denseStyle.size, grey: denseStyle.grey, dense: true, formula: true}

// bandLines is how many lines a band of a list in columns has at about: few enough to fill pages, and enough to be read down.
const bandLines = 14

// columns sets a list in n columns, band below band. A band is one row of the page: it is read column by column, also where its text is copied out, and pages
// break between bands.
func (s sheet) columns(items []item, n int, indent float64) []core.Row {
	share := grid / n
	width := s.paper.text()*float64(share)/grid - cellPad - indent
	var out []core.Row
	for len(items) > 0 {
		var band []*prose
		lines := 0
		for len(band) < len(items) && lines < n*bandLines {
			p := columnStyle.set(items[len(band)].text, width)
			band, lines = append(band, p), lines+len(p.lines)
		}
		out = append(out, bandOf(band, items[:len(band)], n, (lines+n-1)/n, indent))
		items = items[len(band):]
	}
	return append(out, space(1.6))
}

// bandOf sets items in n columns of at least so many lines each, but for the last one.
func bandOf(band []*prose, items []item, n, least int, indent float64) *block {
	cols := make([]core.Col, n)
	for i := range cols {
		cols[i] = col.New(grid / n)
	}
	at, lines, longest := 0, 0, 0
	for i, p := range band {
		if lines > 0 && at < n-1 && lines+len(p.lines)/2 >= least {
			at, lines = at+1, 0
		}
		top := float64(lines) * columnStyle.lineHeight()
		mark := columnStyle.set(items[i].mark, indent)
		mark.pad, p.pad = [3]float64{0, top}, [3]float64{indent, top}
		cols[at].Add(mark, p)
		lines += len(p.lines)
		longest = max(longest, lines)
	}
	return newBlock(float64(longest)*columnStyle.lineHeight()+0.6, nil, cols...)
}
