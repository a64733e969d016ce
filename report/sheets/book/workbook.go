package book

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Header opens a part that we make.
const Header = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"

// Types of the parts that we make.
const (
	sheetType = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"
	TableType = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"
	DrawType  = "application/vnd.openxmlformats-officedocument.drawing+xml"
	ChartType = "application/vnd.openxmlformats-officedocument.drawingml.chart+xml"
	styleType = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"
)

// RelationType returns the type of a relationship of the format: "table", "drawing".
func RelationType(kind string) string { return officeSpace + "/" + kind }

// Sheet is a sheet of the workbook.
type Sheet struct {
	Name, Part string
	ID         string // by which the order of calculation knows it
}

// Name is a defined name. Sheet is the index of the sheet that it is for; −1 for the whole workbook.
type Name struct {
	Name  string
	Sheet int
	Text  string // the formula, as text
}

// workbook returns the workbook part and its elements.
func (b *Book) workbook() ([]byte, *Element, error) {
	text, err := b.Part(b.main)
	if err != nil {
		return nil, nil, err
	}
	root, err := Parse(text, 3)
	return text, root, err
}

// Sheets lists the sheets in their order.
func (b *Book) Sheets() ([]Sheet, error) {
	_, root, err := b.workbook()
	if err != nil {
		return nil, err
	}
	list, err := b.Relations(b.main)
	if err != nil {
		return nil, err
	}
	var out []Sheet
	if sheets := root.Child("sheets"); sheets != nil {
		for _, k := range sheets.Kids {
			s := Sheet{Name: k.Attr("name"), ID: k.Attr("sheetId")}
			if i := slices.IndexFunc(list, func(r Relation) bool { return r.ID == k.attrIn(officeSpace, "id") }); i >= 0 {
				s.Part = list[i].Part
			}
			out = append(out, s)
		}
	}
	return out, nil
}

// Names lists the defined names.
func (b *Book) Names() ([]Name, error) {
	text, root, err := b.workbook()
	if err != nil {
		return nil, err
	}
	var out []Name
	if names := root.Child("definedNames"); names != nil {
		for _, k := range names.Kids {
			out = append(out, nameOf(text, k))
		}
	}
	return out, nil
}

func nameOf(text []byte, k *Element) Name {
	n := Name{Name: k.Attr("name"), Sheet: -1, Text: Unescape(k.Content(text))}
	if i, err := strconv.Atoi(k.Attr("localSheetId")); err == nil {
		n.Sheet = i
	}
	return n
}

// AddSheet adds a sheet behind all others and returns the name of its part, which is still to be made.
func (b *Book) AddSheet(name string) (string, error) {
	part := b.Free("worksheets/sheet*.xml")
	b.Set(part, []byte{}) // taken
	if err := b.SetType(part, sheetType); err != nil {
		return "", err
	}
	id, err := b.addRelation(b.main, "worksheet", part)
	if err != nil {
		return "", err
	}
	text, root, err := b.workbook()
	if err != nil {
		return "", err
	}
	sheets := root.Child("sheets")
	if sheets == nil {
		return "", fmt.Errorf("%s lists no sheets", b.main)
	}
	greatest := 0
	for _, k := range sheets.Kids {
		n, _ := strconv.Atoi(k.Attr("sheetId"))
		greatest = max(greatest, n)
	}
	related, declared := root.declares(officeSpace)
	if !declared {
		related = `r xmlns:r="` + officeSpace + `"`
	}
	prefix, declaration, _ := strings.Cut(related, " ")
	if declaration != "" {
		declaration = " " + declaration
	}
	add := fmt.Sprintf(`<%ssheet%s name="%s" sheetId="%d" %s:id="%s"/>`, sheets.prefix(text), declaration, Escape(name), greatest+1, prefix, id)
	b.Set(b.main, Apply(text, sheets.Within(text, add)))
	return part, nil
}

// SetName defines a name, or defines it anew. One that says the same already is left alone.
func (b *Book) SetName(n Name) error {
	text, root, err := b.workbook()
	if err != nil {
		return err
	}
	local := ""
	if n.Sheet >= 0 {
		local = fmt.Sprintf(` localSheetId="%d"`, n.Sheet)
	}
	add := fmt.Sprintf(`<%sdefinedName name="%s"%s>%s</%[1]sdefinedName>`, root.prefix(text), Escape(n.Name), local, Escape(n.Text))
	names := root.Child("definedNames")
	if names == nil {
		return b.insert([]string{"functionGroups", "externalReferences", "sheets"}, `<%[1]sdefinedNames>`+add+`</%[1]sdefinedNames>`)
	}
	for _, k := range names.Kids {
		was := nameOf(text, k)
		switch {
		case !strings.EqualFold(was.Name, n.Name) || was.Sheet != n.Sheet:
			continue
		case was.Text != n.Text:
			b.Set(b.main, Apply(text, Edit{k.Start, k.End, add}))
		}
		return nil
	}
	b.Set(b.main, Apply(text, names.Within(text, add)))
	return nil
}

// DropName removes a defined name.
func (b *Book) DropName(n Name) error {
	text, root, err := b.workbook()
	if err != nil {
		return err
	}
	names := root.Child("definedNames")
	if names == nil {
		return nil
	}
	for _, k := range names.Kids {
		if was := nameOf(text, k); was.Name == n.Name && was.Sheet == n.Sheet {
			b.Set(b.main, Apply(text, Edit{k.Start, k.End, ""}))
			return nil
		}
	}
	return nil
}

// insert puts an element behind the last of those that must stand before it. %[1]s in it stands for the prefix of names.
func (b *Book) insert(behind []string, add string) error {
	text, root, err := b.workbook()
	if err != nil {
		return err
	}
	at := root.Open
	for _, k := range root.Kids {
		if slices.Contains(behind, k.Local) {
			at = max(at, k.End)
		}
	}
	b.Set(b.main, Apply(text, Edit{at, at, strings.ReplaceAll(add, "%[1]s", root.prefix(text))}))
	return nil
}

// CalculateOnLoad asks whoever opens the workbook to calculate it anew.
func (b *Book) CalculateOnLoad() error {
	text, root, err := b.workbook()
	if err != nil {
		return err
	}
	const full = "fullCalcOnLoad"
	c := root.Child("calcPr")
	switch {
	case c == nil:
		return b.insert([]string{"functionGroups", "externalReferences", "sheets", "definedNames"}, `<%[1]scalcPr `+full+`="1"/>`)
	case c.Attr(full) != "1" && c.Attr(full) != "true":
		b.Set(b.main, Apply(text, c.WithAttr(text, full, "1")))
	}
	return nil
}

// DropOrder drops the order of calculation if it names cells of these sheets, which may no longer be formulas. It is made anew when the workbook is
// opened.
func (b *Book) DropOrder(of []Sheet) error {
	list, err := b.Relations(b.main)
	if err != nil {
		return err
	}
	for _, r := range list {
		if r.kind() != "calcChain" {
			continue
		}
		if named, err := b.orders(r.Part, of); err != nil || !named {
			return err
		}
		if err := b.Drop(r.Part); err != nil {
			return err
		}
		return b.dropRelations(b.main, func(r Relation) bool { return r.kind() == "calcChain" })
	}
	return nil
}

// orders says whether an order of calculation names a cell of a sheet.
func (b *Book) orders(part string, of []Sheet) (bool, error) {
	text, err := b.Part(part)
	if err != nil {
		return false, err
	}
	root, err := Parse(text, 2)
	if err != nil {
		return false, err
	}
	for _, k := range root.Kids {
		if slices.ContainsFunc(of, func(s Sheet) bool { return s.ID == k.Attr("i") }) {
			return true, nil
		}
	}
	return false, nil
}

// Strings returns the texts that cells share, without their formats.
func (b *Book) Strings() ([]string, error) {
	if b.strings != nil {
		return b.strings, nil
	}
	list, err := b.Relations(b.main)
	if err != nil {
		return nil, err
	}
	b.strings = []string{}
	for _, r := range list {
		if r.kind() != "sharedStrings" {
			continue
		}
		text, err := b.Part(r.Part)
		if err != nil {
			return nil, err
		}
		root, err := Parse(text, 4)
		if err != nil {
			return nil, err
		}
		for _, k := range root.Kids {
			b.strings = append(b.strings, Plain(text, k))
		}
	}
	return b.strings, nil
}

// Plain returns the text of a string item: of its runs, without formats and without readings.
func Plain(text []byte, item *Element) string {
	var s strings.Builder
	for _, k := range item.Kids {
		switch k.Local {
		case "t":
			s.WriteString(Unescape(k.Content(text)))
		case "r":
			if t := k.Child("t"); t != nil {
				s.WriteString(Unescape(t.Content(text)))
			}
		}
	}
	return s.String()
}
