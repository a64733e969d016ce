package sheets

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"thawbook/report/sheets/book"
)

// frame lays what stands around the rows of the run before over what was made now. Only what belongs to the results is made anew: their extent,
// links and marks. All else, such as widths, views, print settings, validations and a person's own marks, stays.
func (e *earlier) frame(t *table, f *frame) {
	made := maps.Clone(f.pieces)
	f.root, f.pieces = withRelations(e.root), map[string]string{"dimension": made["dimension"]}
	for _, p := range e.pieces {
		switch p.name {
		case "dimension", "sheetData", "autoFilter", "sortState", "tableParts":
		case "conditionalFormatting":
			f.add(p.name, t.theirMark(p.text))
		case "hyperlinks":
			f.add(p.name, t.theirLinks(p.text))
		case "sheetViews":
			f.add(p.name, panes(p.text, made[p.name]))
		case "cols":
			f.add(p.name, t.moreColumns(p.text, made["cols"]))
		case "headerFooter":
			f.add(p.name, footer(p.text, made[p.name]))
		case "mergeCells":
			f.add(p.name, t.areas(p.text, "ref"))
		case "dataValidations", "protectedRanges", "ignoredErrors":
			f.add(p.name, t.areas(p.text, "sqref"))
		case "extLst":
			f.add(p.name, t.extensions(p.text))
		default:
			f.add(p.name, p.text)
		}
	}
	f.add("conditionalFormatting", made["conditionalFormatting"])
	f.pieces["hyperlinks"] = joined(f.pieces["hyperlinks"], t.linkText())
	for _, name := range []string{"sheetViews", "cols"} {
		if f.pieces[name] == "" {
			f.pieces[name] = made[name]
		}
	}
	if e.table != nil {
		f.pieces["tableParts"] = pieceOf(e.pieces, "tableParts")
	} else {
		f.pieces["tableParts"] = made["tableParts"]
	}
	if f.pieces["drawing"] == "" {
		f.pieces["drawing"] = made["drawing"]
	} else {
		t.drawn = false // the drawing of the run before stays
	}
}

func pieceOf(list []piece, name string) string {
	if i := slices.IndexFunc(list, func(p piece) bool { return p.name == name }); i >= 0 {
		return list[i].text
	}
	return ""
}

// withRelations returns the start tag of a sheet in which r: names what it leads to.
func withRelations(tag string) string {
	if strings.Contains(tag, "xmlns:r=") {
		return tag
	}
	return strings.TrimSuffix(tag, ">") + ` xmlns:r="` + strings.TrimSuffix(book.RelationType(""), "/") + `">`
}

// joined returns links under one element.
func joined(theirs, ours string) string {
	if theirs+ours == "" {
		return ""
	}
	return "<hyperlinks>" + theirs + ours + "</hyperlinks>"
}

// theirLinks returns the links of a person's cells.
func (t *table) theirLinks(text string) string {
	root, err := book.Parse([]byte(text), 2)
	if err != nil {
		return ""
	}
	var out strings.Builder
	for _, k := range root.Kids {
		s, err := spanOf(k.Attr("ref"))
		if err != nil || t.linksIn(s.top.col) && s.top.row <= t.before.last {
			continue
		}
		if moved, found := t.moves.span(s); found {
			out.WriteString(book.ReplaceAttr(k.In([]byte(text)), "ref", moved.String()))
		}
	}
	t.before.theirLinks = out.String()
	return out.String()
}

// theirMark returns a conditional format without the rules that are ours; nothing of one that is ours alone.
func (t *table) theirMark(text string) string {
	root, err := book.Parse([]byte(text), 3)
	if err != nil {
		return text
	}
	var edits []book.Edit
	for _, rule := range root.Kids {
		if formula := rule.Child("formula"); formula != nil && t.marks[shape(book.Unescape(formula.Content([]byte(text))))] {
			edits = append(edits, book.Edit{From: rule.Start, To: rule.End})
		}
	}
	if len(edits) > 0 && len(edits) == len(root.Kids) {
		return ""
	}
	return t.area(string(book.Apply([]byte(text), edits...)))
}

// shape returns a formula with its cells made alike.
func shape(formula string) string {
	return rewrite(formula, func(string, span) string { return "@" })
}

// area moves the cells that an element is for, and its formulas with the first of them. Nothing is left of an element whose cells are gone.
func (t *table) area(element string) string {
	tag := element[:strings.IndexByte(element, '>')+1]
	was := book.TagAttr(tag, "sqref")
	now := t.moves.area(was)
	if now == "" {
		return ""
	}
	down := firstRow(now) - firstRow(was)
	moved := formulas.ReplaceAllStringFunc(element, func(m string) string {
		found := formulas.FindStringSubmatch(m)
		return "<" + found[1] + ">" + book.Escape(copied(book.Unescape(found[2]), down, 0)) + "</"
	})
	return book.ReplaceAttr(moved, "sqref", now)
}

var formulas = regexp.MustCompile(`<(formula[12]?)>([^<]*)</`)

// firstRow returns the row of the first cell in a list of ranges; 0 for whole columns.
func firstRow(list string) int {
	first, _, _ := strings.Cut(list, " ")
	s, err := spanOf(first)
	if err != nil {
		return 0
	}
	return s.top.row
}

// areas moves the cells of each child of an element. Nothing is left of an element whose children are all gone.
func (t *table) areas(text, attr string) string {
	root, err := book.Parse([]byte(text), 2)
	if err != nil {
		return text
	}
	var out strings.Builder
	left := 0
	for _, k := range root.Kids {
		child := k.In([]byte(text))
		if attr == "sqref" {
			child = t.area(child)
		} else if now := t.moves.area(k.Attr(attr)); now != "" {
			child = book.ReplaceAttr(child, attr, now)
		} else {
			child = ""
		}
		if child != "" {
			left++
			out.WriteString(child)
		}
	}
	if left == 0 {
		return ""
	}
	tag := text[:root.Open]
	if book.TagAttr(tag, "count") != "" {
		tag = book.ReplaceAttr(tag, "count", strconv.Itoa(left))
	}
	return tag + out.String() + text[root.Close:]
}

var (
	spark     = regexp.MustCompile(`(?s)<x14:sparkline>.*?</x14:sparkline>`)
	sparkData = regexp.MustCompile(`<xm:f>([^<]*)</xm:f>`)
	extended  = regexp.MustCompile(`<xm:sqref>([^<]*)</xm:sqref>`)
)

// extensions moves the cells that later editions of the format know of: small charts in cells, and their kind of marks and validations.
func (t *table) extensions(text string) string {
	text = spark.ReplaceAllStringFunc(text, func(s string) string {
		return sparkData.ReplaceAllStringFunc(s, func(m string) string {
			return "<xm:f>" + book.Escape(t.moves.formula(book.Unescape(sparkData.FindStringSubmatch(m)[1]), t.name)) + "</xm:f>"
		})
	})
	return extended.ReplaceAllStringFunc(text, func(m string) string {
		if now := t.moves.area(extended.FindStringSubmatch(m)[1]); now != "" {
			return "<xm:sqref>" + now + "</xm:sqref>"
		}
		return m
	})
}

var (
	columnSpan = regexp.MustCompile(`<col [^>]*\bmax="(\d+)"`)
	ourFooter  = regexp.MustCompile(`<oddFooter>&amp;L[^<]*&amp;C&amp;A&amp;R&amp;P / &amp;N</oddFooter>`)
	columnTag  = regexp.MustCompile(`<col [^>]*\bmin="(\d+)"[^>]*>(</col>)?`)
)

// moreColumns adds the widths of columns that the run before did not have.
func (t *table) moreColumns(was, made string) string {
	widest := 0
	for _, m := range columnSpan.FindAllStringSubmatch(was, -1) {
		n, _ := strconv.Atoi(m[1])
		widest = max(widest, n)
	}
	add := ""
	for _, m := range columnTag.FindAllStringSubmatch(made, -1) {
		if n, _ := strconv.Atoi(m[1]); n > widest && n > t.before.width {
			add += m[0]
		}
	}
	return strings.TrimSuffix(was, "</cols>") + add + "</cols>"
}

// footer returns the head and foot of pages of the run before. Only a foot that is ours is made anew.
func footer(was, made string) string {
	return ourFooter.ReplaceAllLiteralString(was, ourFooter.FindString(made))
}

// relationsKept lists what the sheet still leads to. Our own links of the run before are made anew.
func (e *earlier) relationsKept() []book.Relation {
	var list []book.Relation
	for _, r := range e.links {
		if r.Kind() != "hyperlink" || strings.Contains(e.theirLinks, `"`+r.ID+`"`) {
			list = append(list, r)
		}
	}
	return list
}

// carryParts moves what hangs on the sheet's cells elsewhere: its table and its comments.
func (t *table) carryParts(b *book.Book) error {
	if t.before.table != nil {
		if err := t.carryTable(b); err != nil {
			return err
		}
	}
	for _, r := range t.before.links {
		var err error
		switch r.Kind() {
		case "comments", "threadedComment":
			err = t.carryComments(b, r.Part)
		case "vmlDrawing":
			err = t.carryShapes(b, r.Part)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// carryTable fits the table of the run before to the results. Its name, its look and the numbers of its columns stay, so that formulas and slicers
// find them.
func (t *table) carryTable(b *book.Book) error {
	part := t.before.table.part
	text, err := b.Part(part)
	if err != nil {
		return err
	}
	root, err := book.Parse(text, 3)
	if err != nil {
		return err
	}
	area := t.before.table.area
	area.bottom.row = max(t.rows, 2)
	area.bottom.col = t.tableWidth(area.bottom.col)
	var edits []book.Edit
	if columns := root.Child("tableColumns"); columns != nil {
		edits = t.tableColumns(text, columns, area.bottom.col)
	}
	edits = append(edits, root.WithAttr(text, "ref", area.String()), root.WithAttr(text, "totalsRowCount", ""))
	if filter := root.Child("autoFilter"); filter != nil {
		edits = append(edits, book.Edit{From: filter.Start, To: filter.End, Text: `<autoFilter ref="` + area.String() + `"></autoFilter>`})
	}
	if sorted := root.Child("sortState"); sorted != nil {
		edits = append(edits, book.Edit{From: sorted.Start, To: sorted.End})
	}
	if made := book.Apply(text, edits...); string(made) != string(text) {
		b.Set(part, made)
	}
	return nil
}

// tableWidth returns the last column of the table: as far as it went, and on over new columns of ours that follow.
func (t *table) tableWidth(was int) int {
	for slices.Contains(t.at, was+1) {
		was++
	}
	return was
}

// tableColumns names the table's columns as the headings now do.
func (t *table) tableColumns(text []byte, columns *book.Element, last int) []book.Edit {
	var edits []book.Edit
	greatest, add := 0, ""
	for i, k := range columns.Kids {
		id, _ := strconv.Atoi(k.Attr("id"))
		greatest = max(greatest, id)
		if own := slices.Index(t.at, i+1); own >= 0 && k.Attr("name") != t.headings[own] {
			edits = append(edits, k.WithAttr(text, "name", t.headings[own]))
		}
	}
	for col := len(columns.Kids) + 1; col <= last; col++ {
		greatest++
		add += fmt.Sprintf(`<tableColumn id="%d" name="%s"></tableColumn>`, greatest, book.Escape(t.headings[slices.Index(t.at, col)]))
	}
	if add != "" {
		edits = append(edits, columns.WithAttr(text, "count", strconv.Itoa(last)), columns.Within(text, add))
	}
	return edits
}

// carryComments moves comments to where their rows went, and takes those of rows that are gone out.
func (t *table) carryComments(b *book.Book, part string) error {
	text, list, err := comments(b, part)
	if err != nil {
		return err
	}
	var edits []book.Edit
	for _, k := range list {
		s, err := spanOf(k.Attr("ref"))
		if err != nil {
			continue
		}
		moved, found := t.moves.span(s)
		switch {
		case !found:
			edits = append(edits, book.Edit{From: k.Start, To: k.End})
		case moved != s:
			edits = append(edits, k.WithAttr(text, "ref", moved.String()))
		}
	}
	if len(edits) > 0 {
		b.Set(part, book.Apply(text, edits...))
	}
	return nil
}

// comments lists the comments of a part, plain ones or threads.
func comments(b *book.Book, part string) (text []byte, list []*book.Element, err error) {
	if text, err = b.Part(part); err != nil {
		return nil, nil, err
	}
	root, err := book.Parse(text, 3)
	if err != nil {
		return nil, nil, err
	}
	if plain := root.Child("commentList"); plain != nil {
		root = plain
	}
	return text, root.Kids, nil
}

var tags = regexp.MustCompile(`<[^>]*>`)

// plainText returns the words in an element.
func plainText(element string) string {
	return strings.Join(strings.Fields(book.Unescape(tags.ReplaceAllString(element, " "))), " ")
}

var (
	shapes      = regexp.MustCompile(`(?s)<v:shape[ >].*?</v:shape>`)
	shapeRow    = regexp.MustCompile(`<x:Row>(\d+)</x:Row>`)
	shapeAnchor = regexp.MustCompile(`<x:Anchor>([^<]*)</x:Anchor>`)
)

// carryShapes moves the notes that comments are drawn in.
func (t *table) carryShapes(b *book.Book, part string) error {
	text, err := b.Part(part)
	if err != nil {
		return err
	}
	made := shapes.ReplaceAllStringFunc(string(text), func(shape string) string {
		m := shapeRow.FindStringSubmatch(shape)
		if m == nil {
			return shape
		}
		row, _ := strconv.Atoi(m[1])
		now, found := t.moves.row(row + 1)
		switch {
		case !found:
			return ""
		case now == row+1:
			return shape
		}
		shape = strings.Replace(shape, m[0], fmt.Sprintf("<x:Row>%d</x:Row>", now-1), 1)
		return shapeAnchor.ReplaceAllStringFunc(shape, func(a string) string { return movedAnchor(a, now-1-row) })
	})
	if made != string(text) {
		b.Set(part, []byte(made))
	}
	return nil
}

// movedAnchor moves a note's corners down: left column, offset, top row, offset, right column, offset, bottom row, offset.
func movedAnchor(anchor string, down int) string {
	numbers := strings.Split(shapeAnchor.FindStringSubmatch(anchor)[1], ",")
	for _, i := range []int{2, 6} {
		if i < len(numbers) {
			if n, err := strconv.Atoi(strings.TrimSpace(numbers[i])); err == nil {
				numbers[i] = " " + strconv.Itoa(max(n+down, 0))
			}
		}
	}
	return "<x:Anchor>" + strings.Join(numbers, ",") + "</x:Anchor>"
}

var chartCells = regexp.MustCompile(`<(\w+:)?f>([^<]*)</(\w+:)?f>`)

// renewChart points our chart in the drawing of the run before at the rows that the results now take. Its look, and all else that a person drew,
// stays.
func (w *Writer) renewChart(t *table, g *generated, made string) error {
	b := w.source.book
	fresh, err := chartOf(g, made)
	if err != nil {
		return err
	}
	part := t.before.chart(b)
	if !b.Has(part) {
		return nil
	}
	text, err := b.Part(part)
	if err != nil {
		return err
	}
	was, now := chartCells.FindAllStringSubmatchIndex(string(text), -1), chartCells.FindAllStringSubmatch(g.parts[fresh.Part].String(), -1)
	if len(was) != len(now) {
		return nil // a person made another chart of it
	}
	var edits []book.Edit
	for i, at := range was {
		if string(text[at[4]:at[5]]) != now[i][2] {
			edits = append(edits, book.Edit{From: at[4], To: at[5], Text: now[i][2]})
		}
	}
	if len(edits) > 0 {
		b.Set(part, book.Apply(text, edits...))
	}
	return nil
}

// chart returns the part of our chart in the drawing of the run before; empty where it is gone.
func (e *earlier) chart(b *book.Book) string {
	for _, r := range e.links {
		if r.Kind() != "drawing" {
			continue
		}
		text, err := b.Part(r.Part)
		if err != nil {
			return ""
		}
		_, after, found := strings.Cut(string(text), `name="`+chartName+`"`)
		if !found {
			return ""
		}
		id := chartLink.FindStringSubmatch(after)
		list, err := b.Relations(r.Part)
		if err != nil || id == nil {
			return ""
		}
		for _, to := range list {
			if to.ID == id[1] {
				return to.Part
			}
		}
	}
	return ""
}

var chartLink = regexp.MustCompile(`<c:chart [^>]*r:id="([^"]*)"`)
