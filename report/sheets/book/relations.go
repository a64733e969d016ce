package book

import (
	"fmt"
	"path"
	"strings"
)

// Relation leads from a part to another, or out of the workbook.
type Relation struct {
	ID, Type, Target string
	Part             string // that it leads to; empty outside
}

// kind returns the last word of a relationship's type, the same in every edition of the format.
func (r Relation) kind() string { return path.Base(r.Type) }

// Kind returns the last word of the relationship's type: "table", "drawing".
func (r Relation) Kind() string { return r.kind() }

// relsOf returns the part that holds the relationships of a part; of the workbook file itself where name is empty.
func relsOf(name string) string {
	if name == "" {
		return rootRels
	}
	return path.Join(path.Dir(name), "_rels", path.Base(name)+".rels")
}

// Relations returns where a part leads to.
func (b *Book) Relations(name string) ([]Relation, error) {
	rels := relsOf(name)
	if !b.Has(rels) {
		return nil, nil
	}
	text, err := b.Part(rels)
	if err != nil {
		return nil, err
	}
	return RelationsIn(text, name)
}

// RelationsIn reads the relationships of a part from their text.
func RelationsIn(text []byte, name string) ([]Relation, error) {
	root, err := Parse(text, 2)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", relsOf(name), err)
	}
	var out []Relation
	for _, k := range root.Kids {
		r := Relation{ID: k.Attr("Id"), Type: k.Attr("Type"), Target: k.Attr("Target")}
		if !strings.EqualFold(k.Attr("TargetMode"), "External") {
			r.Part = resolve(name, r.Target)
		}
		out = append(out, r)
	}
	return out, nil
}

// resolve returns the part that a target names, seen from a part.
func resolve(from, target string) string {
	target = strings.ReplaceAll(target, `\`, "/")
	if absolute, is := strings.CutPrefix(target, "/"); is {
		return path.Clean(absolute)
	}
	return path.Join(path.Dir(from), target)
}

// target returns how a part is named, seen from another: relative, as spreadsheet programs write it.
func target(from, to string) string {
	var here []string
	if folder := path.Dir(from); folder != "." {
		here = strings.Split(folder, "/")
	}
	there := strings.Split(to, "/")
	for len(here) > 0 && len(there) > 1 && here[0] == there[0] {
		here, there = here[1:], there[1:]
	}
	return strings.Repeat("../", len(here)) + strings.Join(there, "/")
}

// Relate writes the relationships of a part that we make.
func (b *Book) Relate(name string, list []Relation) error {
	if len(list) == 0 {
		return nil
	}
	var s strings.Builder
	s.WriteString(Header + `<Relationships xmlns="` + packageSpace + `">`)
	for _, r := range list {
		s.WriteString(r.text("", name))
	}
	s.WriteString(`</Relationships>`)
	return b.Pack(relsOf(name), []byte(s.String()))
}

func (r Relation) text(prefix, from string) string {
	to, mode := r.Target, ` TargetMode="External"`
	if r.Part != "" {
		to, mode = target(from, r.Part), ""
	}
	return fmt.Sprintf(`<%sRelationship Id="%s" Type="%s" Target="%s"%s/>`, prefix, Escape(r.ID), r.Type, Escape(to), mode)
}

// addRelation adds a relationship to a part that has some, under a new id.
func (b *Book) addRelation(from, kind, to string) (id string, err error) {
	text, err := b.Part(relsOf(from))
	if err != nil {
		return "", err
	}
	root, err := Parse(text, 2)
	if err != nil {
		return "", err
	}
	taken := map[string]bool{}
	for _, k := range root.Kids {
		taken[k.Attr("Id")] = true
	}
	for n := 1; id == "" || taken[id]; n++ {
		id = fmt.Sprintf("rId%d", n)
	}
	r := Relation{ID: id, Type: officeSpace + "/" + kind, Part: to}
	b.Set(relsOf(from), Apply(text, root.Within(text, r.text(root.prefix(text), from))))
	return id, nil
}

// dropRelations removes relationships of a part.
func (b *Book) dropRelations(from string, unwanted func(Relation) bool) error {
	list, err := b.Relations(from)
	if err != nil || len(list) == 0 {
		return err
	}
	text, err := b.Part(relsOf(from))
	if err != nil {
		return err
	}
	root, err := Parse(text, 2)
	if err != nil {
		return err
	}
	var edits []Edit
	for i, k := range root.Kids {
		if unwanted(list[i]) {
			edits = append(edits, Edit{k.Start, k.End, ""})
		}
	}
	if len(edits) > 0 {
		b.Set(relsOf(from), Apply(text, edits...))
	}
	return nil
}
