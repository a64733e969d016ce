package sheets

import (
	"strings"

	"thawbook/report/sheets/book"
)

// panes returns the view of the run before with our frozen panes where it has none: programs that convert a workbook without showing it lose them.
// All else of the view, such as its zoom, stays.
func panes(was, made string) string {
	view, frozen := firstView(was), firstView(made)
	if strings.Contains(was, "<pane ") || view == nil || frozen == nil {
		return was
	}
	ours := ""
	for _, k := range frozen.Kids {
		ours += k.In([]byte(made))
	}
	text := []byte(was)
	edits := []book.Edit{view.WithAttr(text, "topLeftCell", "")} // ours says where the rows below begin
	if len(view.Kids) == 0 {
		return string(book.Apply(text, append(edits, view.Within(text, ours))...))
	}
	edits = append(edits, book.Edit{From: view.Open, To: view.Open, Text: ours})
	for _, k := range view.Kids {
		if k.Local == "selection" { // of a view without panes
			edits = append(edits, book.Edit{From: k.Start, To: k.End})
		}
	}
	return string(book.Apply(text, edits...))
}

// firstView returns the first view of a sheet; nil without one.
func firstView(text string) *book.Element {
	root, err := book.Parse([]byte(text), 3)
	if err != nil || len(root.Kids) == 0 {
		return nil
	}
	return root.Kids[0]
}
