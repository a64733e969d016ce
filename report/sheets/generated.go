package sheets

import (
	"bytes"
	"io"
	"io/fs"

	"github.com/xuri/excelize/v2"
)

// generated takes in what the spreadsheet library makes: our sheets go into the workbook as they come, and of the rest only what they lead to is kept.
type generated struct {
	writer *Writer
	parts  map[string]*bytes.Buffer
	name   string // of the part that is coming
	sheet  bytes.Buffer
	err    error
}

var _ excelize.ZipWriter = (*generated)(nil)

// Create begins a part. It ends when the next begins.
func (g *generated) Create(name string) (io.Writer, error) {
	g.end()
	g.name = name
	if g.writer.made(name) != nil {
		g.sheet.Reset()
		return &g.sheet, g.err
	}
	g.parts[name] = &bytes.Buffer{}
	return g.parts[name], g.err
}

// end puts the sheet that came into the workbook.
func (g *generated) end() {
	t := g.writer.made(g.name)
	if t == nil || g.err != nil {
		return
	}
	pieces, err := t.compose(g.sheet.Bytes())
	if err == nil {
		err = g.writer.source.book.Pack(t.part, pieces...)
	}
	g.err = err
}

// AddFS adds nothing: parts come one by one.
func (g *generated) AddFS(fs.FS) error { return nil }

// Close ends the last part.
func (g *generated) Close() error {
	g.end()
	g.name = ""
	return g.err
}
