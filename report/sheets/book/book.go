// Package book holds a workbook as the parts of its zip file. Only the parts that say which sheets, names and styles there are get edited, as
// text; whatever else a person or a program put into the workbook stays byte for byte.
package book

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"strconv"
	"strings"

	"thawbook/calc/finding"
)

// Refusal says why a workbook can't take our sheets without losing something.
type Refusal struct {
	Code string // of a sentence
	Args []finding.Arg
}

// Error returns the code: the words stand in templates.
func (r *Refusal) Error() string { return r.Code }

func refused(code string, args ...finding.Arg) error { return &Refusal{code, args} }

const (
	typesPart = "[Content_Types].xml"
	rootRels  = "_rels/.rels"
	limit     = 512 << 20 // bytes of all parts together
)

// Book is a workbook. Parts are known by their names, without regard to case.
type Book struct {
	parts   map[string]*part
	main    string // the workbook part
	rels    string // its relationships
	styles  string // its styles part
	strings []string
	signed  bool
	packer  Packer
}

// part is one file of the zip: as it came, or as we made it.
type part struct {
	name string
	file *zip.File
	text []byte // where edited
	made *packed
}

// Open reads a workbook's parts. The error is a *Refusal where the workbook is whole but of a kind that can't be edited without loss.
func Open(data []byte) (*Book, error) {
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, refused("refused-broken", finding.Words("cause", err.Error()))
	}
	b := &Book{parts: map[string]*part{}}
	size := uint64(0)
	for _, f := range r.File {
		name := strings.ReplaceAll(f.Name, `\`, "/")
		if strings.HasSuffix(name, "/") {
			continue // a folder
		}
		if b.Has(name) {
			return nil, refused("refused-twice", finding.Words("part", name))
		}
		b.parts[strings.ToLower(name)] = &part{name: name, file: f}
		size += f.UncompressedSize64
	}
	if size > limit {
		return nil, refused("refused-large", finding.Words("limit", strconv.Itoa(limit>>20)))
	}
	if err := b.find(); err != nil {
		if known := (*Refusal)(nil); errors.As(err, &known) {
			return nil, err
		}
		return nil, refused("refused-broken", finding.Words("cause", err.Error()))
	}
	return b, nil
}

// find finds the workbook part and judges whether it can be edited.
func (b *Book) find() error {
	top, err := b.Relations("")
	if err != nil {
		return err
	}
	for _, r := range top {
		switch r.kind() {
		case "officeDocument":
			b.main = r.Part
		case "origin": // of digital signatures
			b.signed = true
		}
	}
	text, err := b.Part(b.main)
	if err != nil {
		return err
	}
	root, err := Parse(text, 1)
	switch {
	case err != nil:
		return err
	case root.Space == strictSpace:
		return refused("refused-strict")
	case root.Space != mainSpace || root.Local != "workbook":
		return fmt.Errorf("%s is no workbook", b.main)
	}
	b.rels = relsOf(b.main)
	list, err := b.Relations(b.main)
	if err != nil {
		return err
	}
	for _, r := range list {
		switch r.kind() {
		case "styles":
			b.styles = r.Part
		case "revisionHeaders", "usernames":
			return refused("refused-shared")
		}
	}
	return nil
}

// Has says whether there is such a part.
func (b *Book) Has(name string) bool { return b.parts[strings.ToLower(name)] != nil }

// Part returns a part's text, as it will be written.
func (b *Book) Part(name string) ([]byte, error) {
	p := b.parts[strings.ToLower(name)]
	switch {
	case p == nil:
		return nil, fmt.Errorf("%s is missing", cmp.Or(name, "a part"))
	case p.text != nil:
		return p.text, nil
	case p.file == nil:
		return nil, fmt.Errorf("%s was made in this run", name)
	}
	in, err := p.file.Open()
	if err != nil {
		return nil, err
	}
	defer in.Close()
	text, err := io.ReadAll(io.LimitReader(in, limit+1))
	if len(text) > limit {
		return nil, fmt.Errorf("%s is larger than it says", name)
	}
	return text, err
}

// Set edits a part, or adds one.
func (b *Book) Set(name string, text []byte) {
	key := strings.ToLower(name)
	if p := b.parts[key]; p != nil {
		name = p.name
	}
	b.parts[key] = &part{name: name, text: text}
}

// Pack makes a part, or makes it anew, from pieces of text. It keeps the packed part only.
func (b *Book) Pack(name string, pieces ...[]byte) error {
	made, err := b.packer.pack(pieces...)
	if err != nil {
		return err
	}
	b.parts[strings.ToLower(name)] = &part{name: name, made: made}
	return nil
}

// Drop removes a part and what says its type. Whoever pointed at it no longer may.
func (b *Book) Drop(name string) error {
	delete(b.parts, strings.ToLower(name))
	text, err := b.Part(typesPart)
	if err != nil {
		return err
	}
	root, err := Parse(text, 2)
	if err != nil {
		return err
	}
	for _, k := range root.Kids {
		if k.Local == "Override" && strings.EqualFold(k.Attr("PartName"), "/"+name) {
			b.Set(typesPart, Apply(text, Edit{k.Start, k.End, ""}))
		}
	}
	return nil
}

// Free returns the first free name for a part beside the workbook's own: pattern with its * replaced by a number, from 1.
func (b *Book) Free(pattern string) string {
	before, after, _ := strings.Cut(path.Join(path.Dir(b.main), pattern), "*")
	for n := 1; ; n++ {
		if name := before + strconv.Itoa(n) + after; !b.Has(name) {
			return name
		}
	}
}

// SetType says of what type a part is.
func (b *Book) SetType(name, kind string) error {
	text, err := b.Part(typesPart)
	if err != nil {
		return err
	}
	root, err := Parse(text, 2)
	if err != nil {
		return err
	}
	for _, k := range root.Kids {
		if k.Local == "Override" && strings.EqualFold(k.Attr("PartName"), "/"+name) {
			return nil
		}
	}
	add := fmt.Sprintf(`<%sOverride PartName="/%s" ContentType="%s"/>`, root.prefix(text), Escape(name), kind)
	b.Set(typesPart, Apply(text, root.Within(text, add)))
	return nil
}

// Signed says whether the workbook bears a digital signature, which no copy with other content can keep.
func (b *Book) Signed() bool { return b.signed }

// dropSignatures leaves out what would call a changed workbook forged.
func (b *Book) dropSignatures() error {
	if !b.signed {
		return nil
	}
	for _, p := range slices.Collect(maps.Values(b.parts)) {
		if strings.HasPrefix(strings.ToLower(p.name), "_xmlsignatures/") {
			if err := b.Drop(p.name); err != nil {
				return err
			}
		}
	}
	return b.dropRelations("", func(r Relation) bool { return r.kind() == "origin" })
}

// Write writes the workbook: the content types first, as readers expect, then the parts by name.
func (b *Book) Write(w io.Writer) error {
	if err := b.dropSignatures(); err != nil {
		return err
	}
	out := zip.NewWriter(w)
	for _, p := range b.sorted() {
		if err := b.put(out, p); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return out.Close()
}

func (b *Book) put(out *zip.Writer, p *part) error {
	switch {
	case p.made != nil:
		return p.made.put(out, p.name)
	case p.text != nil:
		made, err := b.packer.pack(p.text)
		if err != nil {
			return err
		}
		return made.put(out, p.name)
	}
	return copyRaw(out, p.file)
}

func (b *Book) sorted() []*part {
	list := slices.Collect(maps.Values(b.parts))
	slices.SortFunc(list, func(x, y *part) int {
		first := func(p *part) int {
			if strings.EqualFold(p.name, typesPart) {
				return 0
			}
			return 1
		}
		return cmp.Or(first(x)-first(y), cmp.Compare(x.name, y.name))
	})
	return list
}
