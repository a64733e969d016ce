package submittal

import (
	"strings"
	"unicode/utf8"

	"github.com/johnfercher/go-tree/node"
	"github.com/johnfercher/maroto/v2/pkg/core"
	"github.com/johnfercher/maroto/v2/pkg/core/entity"
)

const (
	mmPerPoint = 25.4 / 72
	leading    = 1.26 // line height over size
	tight      = 1.18 // the same in dense tables: less, and lowered and raised letters touch the lines beside theirs
	ascent     = 0.93 // of the font, over size
	small      = 0.72 // raised and lowered letters, over size
	asideGrey  = 105  // of what runs on behind a text and is not the text itself
)

// style is how a text is set.
type style struct {
	size    float64 // points
	bold    bool
	grey    int  // 0 is black
	right   bool // aligned right
	formula bool // _x lowers and ^x raises
	dense   bool // lines close together
	most    int  // lines, the last one cut with …; 0: any number
}

func (s style) lineHeight() float64 {
	if s.dense {
		return s.size * tight * mmPerPoint
	}
	return s.size * leading * mmPerPoint
}

// run is a piece of a line in one size.
type run struct {
	text  string
	x     float64 // from the start of the line [mm]
	width float64
	level int8 // −1 lowered, 1 raised
	aside bool // set in grey: runs on behind the text
}

// prose is a text broken into lines for a width. maroto's own text breaks no long word, measures twice and lowers no letters.
type prose struct {
	style style
	lines [][]run
	pad   [3]float64 // left, top, right [mm]
}

func (s style) set(text string, width float64) *prose { return s.setWith(text, "", width) }

// setWith runs an aside on behind a text, in grey.
func (s style) setWith(text, aside string, width float64) *prose {
	lines := s.wrap(nil, clean(text), false, width)
	if aside != "" {
		lines = s.wrap(lines, clean(aside), true, width)
	}
	p := &prose{style: s, lines: lines}
	if s.most > 0 && len(p.lines) > s.most {
		p.lines = p.lines[:s.most]
		last := p.lines[s.most-1]
		end := &last[len(last)-1]
		end.text = s.clip(end.text+" …", width-end.x)
		end.width = s.width(end.text, end.level)
	}
	return p
}

// height returns the height of all lines in mm.
func (p *prose) height() float64 { return p.pad[1] + float64(len(p.lines))*p.style.lineHeight() }

func (s style) width(text string, level int8) float64 {
	size := s.size
	if level != 0 {
		size *= small
	}
	return face().width(text, size, s.bold)
}

// clip shortens a text to a width, with … at its end.
func (s style) clip(text string, width float64) string {
	if s.width(text, 0) <= width {
		return text
	}
	text = strings.TrimRight(text, " …")
	for text != "" && s.width(text+"…", 0) > width {
		_, n := utf8.DecodeLastRuneInString(text)
		text = text[:len(text)-n]
	}
	return strings.TrimRight(text, " ") + "…"
}

// wrap goes on behind lines that are set, breaking a text at its spaces, and a word that is wider than the line where it must.
func (s style) wrap(lines [][]run, text string, aside bool, width float64) [][]run {
	var line []run
	end, space := 0.0, s.width(" ", 0)
	if n := len(lines); n > 0 {
		lines, line = lines[:n-1], lines[n-1]
		end = line[len(line)-1].x + line[len(line)-1].width
	}
	for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ' ' }) {
		for _, piece := range s.pieces(word, width) {
			for i := range piece {
				piece[i].aside = aside
			}
			wide := piece[len(piece)-1].x + piece[len(piece)-1].width
			if len(line) > 0 && end+space+wide > width {
				lines, line = append(lines, line), nil
			}
			if len(line) == 0 {
				line, end = piece, wide
				continue
			}
			line = s.join(line, piece, end+space)
			end += space + wide
		}
	}
	if len(line) > 0 {
		lines = append(lines, line)
	}
	return lines
}

// join puts a word behind a line at x; plain text of one colour stays one run, so that it is copied out of the document as one.
func (s style) join(line, piece []run, x float64) []run {
	for i := range piece {
		piece[i].x += x
	}
	last := &line[len(line)-1]
	if last.level == 0 && piece[0].level == 0 && last.aside == piece[0].aside {
		last.text += " " + piece[0].text
		last.width = piece[0].x + piece[0].width - last.x
		piece = piece[1:]
	}
	return append(line, piece...)
}

// Render draws the lines from the top of the cell.
func (p *prose) Render(provider core.Provider, cell *entity.Cell) {
	pdf := fpdf(provider)
	left, top, _, _ := pdf.GetMargins()
	weight := ""
	if p.style.bold {
		weight = "B"
	}
	size, y := p.style.size*mmPerPoint, top+cell.Y+p.pad[1]
	for _, line := range p.lines {
		x := left + cell.X + p.pad[0]
		if p.style.right {
			last := line[len(line)-1]
			x = left + cell.X + cell.Width - p.pad[2] - last.x - last.width
		}
		for _, r := range line {
			points, rise := p.style.size, 0.0
			switch r.level {
			case -1:
				points, rise = points*small, -0.13*size
			case 1:
				points, rise = points*small, 0.28*size
			}
			grey := p.style.grey
			if r.aside {
				grey = asideGrey
			}
			pdf.SetTextColor(grey, grey, grey)
			pdf.SetFont(family, weight, points)
			pdf.Text(x+r.x, y+ascent*size-rise, r.text)
		}
		y += p.style.lineHeight()
	}
}

// GetHeight returns the height of the lines.
func (p *prose) GetHeight(core.Provider, *entity.Cell) float64 { return p.height() }

// SetConfig takes nothing: a prose knows its style.
func (p *prose) SetConfig(*entity.Config) {}

// GetStructure names the component.
func (p *prose) GetStructure() *node.Node[core.Structure] {
	return node.New(core.Structure{Type: "prose", Value: len(p.lines)})
}
