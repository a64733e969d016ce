package book

import (
	"archive/zip"
	"bytes"
)

// New returns a workbook without sheets.
func New(creator, title string) (*Book, error) {
	const made = "2000-01-01T00:00:00Z" // the same input has the same bytes
	const types = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	parts := []struct{ name, text string }{
		{typesPart, `<Types xmlns="` + typesSpace + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="` + types + `sheet.main+xml"/>` +
			`<Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/></Types>`},
		{rootRels, `<Relationships xmlns="` + packageSpace + `"><Relationship Id="rId1" Type="` + officeSpace + `/officeDocument" Target="xl/workbook.xml"/>` +
			`<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties" Target="docProps/core.xml"/></Relationships>`},
		{"docProps/core.xml", `<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" ` +
			`xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><dc:title>` + Escape(title) + `</dc:title><dc:creator>` + Escape(creator) +
			`</dc:creator><dcterms:created xsi:type="dcterms:W3CDTF">` + made + `</dcterms:created><dcterms:modified xsi:type="dcterms:W3CDTF">` + made + `</dcterms:modified></cp:coreProperties>`},
		{"xl/workbook.xml", `<workbook xmlns="` + mainSpace + `" xmlns:r="` + officeSpace + `"><bookViews><workbookView/></bookViews><sheets></sheets></workbook>`},
		{"xl/_rels/workbook.xml.rels", `<Relationships xmlns="` + packageSpace + `"></Relationships>`},
	}
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, p := range parts {
		f, err := w.Create(p.name)
		if err != nil {
			return nil, err
		}
		if _, err := f.Write([]byte(Header + p.text)); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return Open(out.Bytes())
}
