package sheets

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"path"
	"regexp"
	"strings"
)

const (
	workbookPart  = "xl/workbook.xml"
	workbookRels  = "xl/_rels/workbook.xml.rels"
	stylesPart    = "xl/styles.xml"
	chainPart     = "xl/calcChain.xml"
	emptySheet    = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" + `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheetData/></worksheet>`
	plainStyles   = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n" + `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="1"><font><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders><cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles><dxfs count="0"/></styleSheet>`
	stylesType    = `<Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>`
	stylesRel     = `<Relationship Id="thawbookStyles" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/>`
	unzippedLimit = 512 << 20 // bytes
)

// pack is a workbook's parts before the spreadsheet library opens them. Two things must be put right there: the library panics on a workbook
// without styles, and it can't empty a sheet without touching all others.
type pack struct {
	files   *zip.Reader
	replace map[string][]byte // nil: the part is dropped
	reused  map[string]string // key of a result sheet → the name of the user's sheet that carries its mark
	sheets  map[string]bool   // paths of parts
}

// workbookXML is what is read of a workbook part.
type workbookXML struct {
	Sheets []struct {
		Name string `xml:"name,attr"`
		ID   string `xml:"http://schemas.openxmlformats.org/officeDocument/2006/relationships id,attr"`
	} `xml:"sheets>sheet"`
	Names []struct {
		Name string `xml:"name,attr"`
		To   string `xml:",chardata"`
	} `xml:"definedNames>definedName"`
}

type relationsXML struct {
	Relations []struct {
		ID     string `xml:"Id,attr"`
		Target string `xml:"Target,attr"`
	} `xml:"Relationship"`
}

// prepare returns the bytes of a workbook with styles, and with the sheets that an earlier run marked emptied; reused tells them by key.
func prepare(data []byte) (out []byte, reused map[string]string, parts map[string]bool, err error) {
	r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, nil, nil, err
	}
	p := &pack{files: r, replace: map[string][]byte{}, reused: map[string]string{}, sheets: map[string]bool{}}
	for _, f := range r.File {
		p.sheets[f.Name] = true
	}
	if err := p.emptyMarked(); err != nil {
		return nil, nil, nil, err
	}
	if err := p.addStyles(); err != nil {
		return nil, nil, nil, err
	}
	if len(p.replace) == 0 {
		return data, p.reused, p.sheets, nil
	}
	out, err = p.bytes()
	return out, p.reused, p.sheets, err
}

// part returns a part as it will be written.
func (p *pack) part(name string) ([]byte, error) {
	if b, changed := p.replace[name]; changed {
		return b, nil
	}
	f, err := p.files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, unzippedLimit+1))
	if len(b) > unzippedLimit {
		return nil, fmt.Errorf("%s is larger than %d MiB", name, unzippedLimit>>20)
	}
	return b, err
}

// addStyles gives a workbook without a styles part a plain one.
func (p *pack) addStyles() error {
	if p.sheets[stylesPart] {
		return nil
	}
	if err := p.insert(typesPart, "</Types>", stylesType); err != nil {
		return err
	}
	if err := p.insert(workbookRels, "</Relationships>", stylesRel); err != nil {
		return err
	}
	p.replace[stylesPart] = []byte(plainStyles)
	return nil
}

func (p *pack) insert(name, before, text string) error {
	b, err := p.part(name)
	if err != nil {
		return err
	}
	at := bytes.LastIndex(b, []byte(before))
	if at < 0 {
		return fmt.Errorf("%s has no %s", name, before)
	}
	p.replace[name] = []byte(string(b[:at]) + text + string(b[at:]))
	return nil
}

// emptyMarked empties the sheets that an earlier run marked with a defined name. Their place and their name stay, so that formulas that point
// at them keep working.
func (p *pack) emptyMarked() error {
	b, err := p.part(workbookPart)
	if err != nil {
		return err
	}
	var book workbookXML
	if err := xml.Unmarshal(b, &book); err != nil {
		return err
	}
	targets, err := p.targets()
	if err != nil {
		return err
	}
	for _, n := range book.Names {
		key, marked := strings.CutPrefix(n.Name, markPrefix)
		if !marked {
			continue
		}
		name := sheetOf(n.To)
		for _, s := range book.Sheets {
			if s.Name == name && p.sheets[targets[s.ID]] {
				p.empty(targets[s.ID])
				p.reused[key] = name
			}
		}
	}
	if len(p.reused) > 0 {
		return p.dropChain()
	}
	return nil
}

func (p *pack) targets() (map[string]string, error) {
	b, err := p.part(workbookRels)
	if err != nil {
		return nil, err
	}
	var rels relationsXML
	if err := xml.Unmarshal(b, &rels); err != nil {
		return nil, err
	}
	targets := map[string]string{}
	for _, r := range rels.Relations {
		target := strings.TrimPrefix(r.Target, "/")
		if target == r.Target {
			target = path.Join("xl", r.Target)
		}
		targets[r.ID] = target
	}
	return targets, nil
}

func (p *pack) empty(part string) {
	p.replace[part] = []byte(emptySheet)
	if rels := path.Join(path.Dir(part), "_rels", path.Base(part)+".rels"); p.sheets[rels] {
		p.replace[rels] = nil
	}
}

var (
	chainType = regexp.MustCompile(`<Override[^>]*PartName="/xl/calcChain\.xml"[^>]*(/>|></Override>)`)
	chainRel  = regexp.MustCompile(`<Relationship [^>]*Target="(/xl/)?calcChain\.xml"[^>]*(/>|></Relationship>)`)
)

// dropChain drops the order of calculation, which may name cells of an emptied sheet. It is made anew when the workbook is opened.
func (p *pack) dropChain() error {
	if !p.sheets[chainPart] {
		return nil
	}
	p.replace[chainPart] = nil
	for name, pattern := range map[string]*regexp.Regexp{typesPart: chainType, workbookRels: chainRel} {
		b, err := p.part(name)
		if err != nil {
			return err
		}
		p.replace[name] = pattern.ReplaceAll(b, nil)
	}
	return nil
}

// bytes writes the parts anew; those that stay are copied as they are.
func (p *pack) bytes() ([]byte, error) {
	var buf bytes.Buffer
	w := zip.NewWriter(&buf)
	put := func(name string, b []byte) error {
		part, err := w.Create(name)
		if err == nil {
			_, err = part.Write(b)
		}
		return err
	}
	for _, f := range p.files.File {
		b, changed := p.replace[f.Name]
		var err error
		switch {
		case !changed:
			err = w.Copy(f)
		case b != nil:
			err = put(f.Name, b)
		}
		if err != nil {
			return nil, err
		}
	}
	if b := p.replace[stylesPart]; b != nil && !p.sheets[stylesPart] {
		if err := put(stylesPart, b); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return buf.Bytes(), err
}

// sheetOf returns the sheet that a reference names: 'Results Summary'!$A$1.
func sheetOf(reference string) string {
	name, _, _ := strings.Cut(strings.TrimSpace(reference), "!$")
	if quoted, is := strings.CutPrefix(name, "'"); is {
		return strings.ReplaceAll(strings.TrimSuffix(quoted, "'"), "''", "'")
	}
	return name
}
