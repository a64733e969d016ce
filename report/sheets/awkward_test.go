package sheets_test

import (
	"archive/zip"
	"bytes"
	"image"
	"image/color"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// awkward is a workbook as people and programs really have them.
type awkward struct {
	name  string // with its ending
	data  []byte
	found string // code that must be told; empty for none
	whole bool   // false: the results get a workbook of their own
}

// awkwardBooks makes all of them: by the library, and from XML as other programs write it.
func awkwardBooks(t testing.TB) []awkward {
	list := []awkward{}
	for name, change := range byLibrary(t) {
		list = append(list, awkward{name: name, data: made(t, name, change), whole: true})
	}
	list = append(list,
		awkward{"no styles.xlsx", rawBook(map[string]string{"xl/styles.xml": ""}), "", true},
		awkward{"hollow styles.xlsx", rawBook(map[string]string{"xl/styles.xml": `<styleSheet xmlns="` + mainNS + `"/>`}), "", true},
		awkward{"styles without counts.xlsx", rawBook(map[string]string{"xl/styles.xml": countless}), "", true},
		awkward{"prefixed names.xlsx", prefixed(), "", true},
		awkward{"parts elsewhere.xlsx", elsewhere(), "", true},
		awkward{"workbook at the root.xlsx", atRoot(), "", true},
		awkward{"parts of later editions.xlsx", rawBook(later()), "", true},
		awkward{"stored with byte order marks.xlsx", stored(), "", true},
		awkward{"cells without places.xlsx", rawBook(map[string]string{"xl/worksheets/sheet1.xml": placeless}), "", true},
		awkward{"manual calculation.xlsx", rawBook(map[string]string{"xl/workbook.xml": manual}), "", true},
		awkward{"signed.xlsx", rawBook(signed()), "copy-unsigned", true},
		awkward{"strict.xlsx", rawBook(map[string]string{"xl/workbook.xml": strings.ReplaceAll(plainWorkbook, mainNS, "http://purl.oclc.org/ooxml/spreadsheetml/main")}), "results-separate", false},
		awkward{"shared with a log.xlsx", rawBook(logged()), "results-separate", false},
		awkward{"in another encoding.xlsx", rawBook(map[string]string{"xl/workbook.xml": `<?xml version="1.0" encoding="UTF-16"?>` + plainWorkbook}), "results-separate", false},
		awkward{"with a part twice.xlsx", twice(), "results-separate", false},
		awkward{"no zip.xlsx", []byte("Site ID;Area"), "results-separate", false},
	)
	return list
}

// made returns a workbook that the library writes.
func made(t testing.TB, name string, change func(*excelize.File)) []byte {
	f := excelize.NewFile()
	defer f.Close()
	require.NoError(t, f.SetSheetName("Sheet1", "Sites"))
	for row, values := range [][]any{{"Site ID", "Area", "Use", "Date"}, {"S000", 120.5, "walk", 45000}, {"S001", 80, "ramp", 45001}} {
		require.NoError(t, f.SetSheetRow("Sites", cellAt(1, row+1), &values))
	}
	_, err := f.NewSheet("Mine")
	require.NoError(t, err)
	require.NoError(t, f.SetCellFormula("Mine", "A1", "'Results Summary'!A2"))
	change(f)
	f.Path = name
	var b bytes.Buffer
	_, err = f.WriteTo(&b)
	require.NoError(t, err, name)
	return b.Bytes()
}

func cellAt(col, row int) string {
	name, _ := excelize.CoordinatesToCellName(col, row)
	return name
}

// byLibrary are workbooks that hold one kind of thing each.
func byLibrary(t testing.TB) map[string]func(*excelize.File) {
	ok := func(err error) { require.NoError(t, err) }
	return map[string]func(*excelize.File){
		"formulas.xlsx": func(f *excelize.File) {
			ok(f.SetCellFormula("Mine", "B1", "SUM(Sites!B2:B3)"))
			ref, array, shared := "C1:C3", excelize.STCellFormulaTypeArray, excelize.STCellFormulaTypeShared
			ok(f.SetCellFormula("Mine", "C1", "Sites!B2:B4*2", excelize.FormulaOpts{Ref: &ref, Type: &array}))
			ref2 := "D1:D3"
			ok(f.SetCellFormula("Mine", "D1", "B1*2", excelize.FormulaOpts{Ref: &ref2, Type: &shared}))
			ok(f.SetCellFormula("Mine", "E1", "SUM('Results Cost'!A:A)+COUNTIF('Results Loads'!$A$2:$A$99,\"S*\")"))
		},
		"styles.xlsx": func(f *excelize.File) {
			for i := range 200 {
				format := "0." + strings.Repeat("0", i%9+1)
				id, err := f.NewStyle(&excelize.Style{CustomNumFmt: &format, Font: &excelize.Font{Size: float64(8 + i%20), Color: "336699", Italic: i%2 == 0},
					Fill: excelize.Fill{Type: "gradient", Color: []string{"FFFFFF", "E0EBF5"}, Shading: 1}, Border: []excelize.Border{{Type: "left", Style: i % 13, Color: "FF0000"}},
					Protection: &excelize.Protection{Hidden: true}})
				ok(err)
				ok(f.SetCellStyle("Mine", cellAt(1, i+1), cellAt(3, i+1), id))
			}
			ok(f.SetDefaultFont("Georgia"))
		},
		"comments.xlsx": func(f *excelize.File) {
			ok(f.AddComment("Sites", excelize.Comment{Cell: "B2", Author: "Ann", Text: "measured"}))
			ok(f.AddComment("Mine", excelize.Comment{Cell: "A1", Author: "Bob", Paragraph: []excelize.RichTextRun{{Text: "bold", Font: &excelize.Font{Bold: true}}, {Text: " and not"}}}))
		},
		"validations.xlsx": func(f *excelize.File) {
			list := excelize.NewDataValidation(true)
			list.Sqref = "C2:C99"
			ok(list.SetDropList([]string{"walk", "ramp"}))
			ok(f.AddDataValidation("Sites", list))
			other := excelize.NewDataValidation(true)
			other.Sqref = "B2:B99"
			other.SetSqrefDropList("Mine!$A$1:$A$9")
			ok(f.AddDataValidation("Sites", other))
		},
		"conditional formats.xlsx": func(f *excelize.File) {
			red, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "9A0511"}, Fill: excelize.Fill{Type: "pattern", Color: []string{"FEC7CE"}, Pattern: 1}})
			ok(err)
			ok(f.SetConditionalFormat("Sites", "B2:B9", []excelize.ConditionalFormatOptions{{Type: "cell", Criteria: ">", Format: &red, Value: "100"}, {Type: "duplicate", Criteria: "=", Format: &red}}))
			ok(f.SetConditionalFormat("Sites", "D2:D9", []excelize.ConditionalFormatOptions{{Type: "data_bar", Criteria: "=", MinType: "min", MaxType: "max", BarColor: "#638EC6", BarSolid: true}}))
			ok(f.SetConditionalFormat("Mine", "A1:A9", []excelize.ConditionalFormatOptions{{Type: "icon_set", IconStyle: "3Arrows"}, {Type: "3_color_scale", Criteria: "=", MinType: "min", MidType: "percentile", MaxType: "max", MinColor: "#F8696B", MidColor: "#FFEB84", MaxColor: "#63BE7B"}}))
		},
		"names.xlsx": func(f *excelize.File) {
			for _, n := range []excelize.DefinedName{{Name: "Rate", RefersTo: "0.08", Comment: "a constant"}, {Name: "Areas", RefersTo: "Sites!$B$2:$B$9"}, {Name: "Areas", RefersTo: "Mine!$B$2:$B$9", Scope: "Mine"},
				{Name: "_xlnm.Print_Area", RefersTo: "Sites!$A$1:$D$9", Scope: "Sites"}, {Name: "Summary", RefersTo: "'Results Summary'!$A$2"}, {Name: "thawbook.of.mine", RefersTo: "Mine!$A$1"}} {
				ok(f.SetDefinedName(&n))
			}
		},
		"pictures.xlsx": func(f *excelize.File) {
			ok(f.AddPictureFromBytes("Mine", "C3", &excelize.Picture{Extension: ".png", File: dot(), Format: &excelize.GraphicOptions{AltText: "a dot", Hyperlink: "https://example.org"}}))
			ok(f.SetSheetBackgroundFromBytes("Mine", ".png", dot()))
			ok(f.AddHeaderFooterImage("Sites", &excelize.HeaderFooterImageOptions{Position: excelize.HeaderFooterImagePositionLeft, File: dot(), Extension: ".png", Width: "10pt", Height: "10pt"}))
		},
		"charts.xlsx": func(f *excelize.File) {
			c := &excelize.Chart{Type: excelize.Col, Series: []excelize.ChartSeries{{Name: "Sites!$B$1", Categories: "Sites!$A$2:$A$3", Values: "Sites!$B$2:$B$3"}}}
			ok(f.AddChart("Mine", "C3", c))
			ok(f.AddChart("Mine", "C30", &excelize.Chart{Type: excelize.Pie, Series: c.Series}))
			ok(f.AddChartSheet("A chart", &excelize.Chart{Type: excelize.Line, Series: c.Series}))
		},
		"pivots.xlsx": func(f *excelize.File) {
			ok(f.AddPivotTable(&excelize.PivotTableOptions{DataRange: "Sites!A1:D3", PivotTableRange: "Mine!D5:G20", Rows: []excelize.PivotTableField{{Data: "Use"}}, Data: []excelize.PivotTableField{{Data: "Area", Subtotal: "Sum"}}}))
		},
		"tables and slicers.xlsx": func(f *excelize.File) {
			ok(f.AddTable("Sites", &excelize.Table{Range: "A1:D3", Name: "Sites_table", StyleName: "TableStyleMedium2"}))
			ok(f.AddSlicer("Sites", &excelize.SlicerOptions{Name: "Use", Cell: "F2", TableSheet: "Sites", TableName: "Sites_table", Caption: "Use"}))
		},
		"sparklines.xlsx": func(f *excelize.File) {
			ok(f.AddSparkline("Mine", &excelize.SparklineOptions{Location: []string{"F1"}, Range: []string{"Sites!B2:D2"}, Markers: true}))
		},
		"macros.xlsm": func(f *excelize.File) {
			ok(f.AddVBAProject(append([]byte{0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1}, make([]byte, 2000)...)))
			ok(f.AddFormControl("Mine", excelize.FormControl{Cell: "D4", Type: excelize.FormControlButton, Macro: "Button1_Click", Text: "Go"}))
		},
		"protected.xlsx": func(f *excelize.File) {
			ok(f.ProtectSheet("Sites", &excelize.SheetProtectionOptions{AlgorithmName: "SHA-512", Password: "x", EditScenarios: true}))
			ok(f.ProtectWorkbook(&excelize.WorkbookProtectionOptions{AlgorithmName: "SHA-512", Password: "x", LockStructure: true}))
		},
		"hidden.xlsx": func(f *excelize.File) {
			for _, s := range []string{"Secret", "Deep secret"} {
				_, err := f.NewSheet(s)
				ok(err)
			}
			ok(f.SetSheetVisible("Secret", false))
			ok(f.SetSheetVisible("Deep secret", false, true))
			ok(f.SetColVisible("Sites", "D", false))
			ok(f.SetRowVisible("Sites", 3, false))
			f.SetActiveSheet(1)
		},
		"laid out.xlsx": func(f *excelize.File) {
			ok(f.MergeCell("Mine", "B2", "D4"))
			ok(f.SetPanes("Sites", &excelize.Panes{Freeze: true, XSplit: 1, YSplit: 1, TopLeftCell: "B2", ActivePane: "bottomRight"}))
			ok(f.SetRowOutlineLevel("Sites", 2, 2))
			ok(f.SetColOutlineLevel("Sites", "C", 1))
			ok(f.InsertPageBreak("Sites", "C3"))
			ok(f.SetHeaderFooter("Sites", &excelize.HeaderFooterOptions{OddHeader: "&LOurs&R&D", DifferentFirst: true}))
			ok(f.AutoFilter("Sites", "A1:D3", []excelize.AutoFilterOptions{{Column: "B", Expression: "x > 1"}}))
			tab := "FF00AA"
			ok(f.SetSheetProps("Mine", &excelize.SheetPropsOptions{TabColorRGB: &tab}))
		},
		"names taken.xlsx": func(f *excelize.File) {
			_, err := f.NewSheet("RESULTS SUMMARY")
			ok(err)
			set(t, f, "RESULTS SUMMARY", "A1", "my own")
			_, err = f.NewSheet("Table keeper")
			ok(err)
			ok(f.AddTable("Table keeper", &excelize.Table{Range: "A1:B3", Name: "results_loads"}))
			ok(f.SetDefinedName(&excelize.DefinedName{Name: "Results_Slab", RefersTo: "Mine!$A$1"}))
		},
		"1904 and rich text.xlsx": func(f *excelize.File) {
			yes := true
			ok(f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}))
			ok(f.SetCellRichText("Mine", "B1", []excelize.RichTextRun{{Text: "two "}, {Text: "colours", Font: &excelize.Font{Color: "FF0000"}}}))
			ok(f.SetCellHyperLink("Mine", "B1", "https://example.org/?a=1&b=2", "External"))
			ok(f.SetCellHyperLink("Mine", "B2", "Sites!A1", "Location"))
			ok(f.SetAppProps(&excelize.AppProperties{Company: "Owner & Sons"}))
			ok(f.SetCustomProps(excelize.CustomProperty{Name: "Label", Value: "internal"}))
		},
		"shapes.xlsx": func(f *excelize.File) {
			ok(f.AddShape("Mine", &excelize.Shape{Cell: "C3", Type: "rect", Paragraph: []excelize.RichTextRun{{Text: "north"}}}))
			ok(f.AddFormControl("Sites", excelize.FormControl{Cell: "G4", Type: excelize.FormControlCheckBox, Text: "checked", Checked: true}))
		},
		"odd names.xlsx": func(f *excelize.File) {
			for _, s := range []string{"O'Brien & Söhne", "雪の道", "'quoted", "a.b-c (2)"} {
				_, err := f.NewSheet(strings.TrimPrefix(s, "'"))
				ok(err)
			}
			ok(f.SetCellFormula("Mine", "B1", "'O''Brien & Söhne'!A1"))
		},
	}
}

func dot() []byte {
	img := image.NewRGBA(image.Rect(0, 0, 2, 2))
	img.Set(0, 0, color.RGBA{255, 0, 0, 255})
	var b bytes.Buffer
	_ = png.Encode(&b, img) // into memory
	return b.Bytes()
}

const (
	mainNS   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	relNS    = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	typeNS   = "http://schemas.openxmlformats.org/package/2006/content-types"
	packNS   = "http://schemas.openxmlformats.org/package/2006/relationships"
	ooxml    = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	microNS  = "http://schemas.microsoft.com/office/2017/10/relationships"
	declared = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\r\n"

	plainWorkbook = `<workbook xmlns="` + mainNS + `" xmlns:r="` + relNS + `"><sheets><sheet name="Sites" sheetId="7" r:id="rIdA"/><sheet name="Mine" sheetId="3" r:id="rIdB"/></sheets></workbook>`
	plainStyles   = `<styleSheet xmlns="` + mainNS + `"><fonts count="1"><font><sz val="12"/><name val="Verdana"/></font></fonts><fills count="1"><fill><patternFill patternType="none"/></fill></fills>` +
		`<borders count="1"><border><left/><right/><top/><bottom/></border></borders><cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellXfs></styleSheet>`
	countless = `<styleSheet xmlns="` + mainNS + `" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" mc:Ignorable="x14ac" xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac">` +
		`<numFmts count="9"><numFmt numFmtId="170" formatCode="0.0&quot; m&quot;"/></numFmts><fonts x14ac:knownFonts="1"><font><b/><sz val="12"/></font><font><sz val="9"/><name val="Verdana"/></font></fonts>` +
		`<fills><fill><patternFill/></fill><fill><gradientFill degree="90"><stop position="0"><color theme="0"/></stop></gradientFill></fill></fills><borders><border/></borders>` +
		`<cellStyleXfs><xf/></cellStyleXfs><cellXfs count="1"><xf/><xf numFmtId="170" fontId="1" applyFont="1"/></cellXfs><dxfs/><tableStyles count="0" defaultTableStyle="TableStyleMedium9"/>` +
		`<colors><mruColors><color rgb="FF123456"/></mruColors></colors><extLst><ext uri="{EB79DEF2-80B8-43e5-95BD-54CBDDF9020C}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:slicerStyles defaultSlicerStyle="SlicerStyleLight1"/></ext></extLst></styleSheet>`
	placeless = `<worksheet xmlns="` + mainNS + `"><sheetData><row><c t="inlineStr"><is><t>Site ID</t></is></c><c t="inlineStr"><is><r><t xml:space="preserve">Ar</t></r><r><rPr><b/></rPr><t>ea</t></r></is></c></row>` +
		`<row><c t="inlineStr"><is><t>S000</t></is></c><c><v>120.5</v></c></row></sheetData></worksheet>`
	manual = `<workbook xmlns="` + mainNS + `" xmlns:rel="` + relNS + `"><workbookPr codeName="ThisWorkbook"/><bookViews><workbookView activeTab="1"/></bookViews><sheets><sheet name="Sites" sheetId="7" rel:id="rIdA"/>` +
		`<sheet name="Mine" sheetId="3" rel:id="rIdB"/></sheets><functionGroups/><calcPr calcMode="manual" fullCalcOnLoad="0"/><customWorkbookViews><customWorkbookView name="a" guid="{00000000-0000-0000-0000-000000000001}" windowWidth="1" windowHeight="1" activeSheetId="7"/></customWorkbookViews></workbook>`
)

// rawBook returns a workbook written as XML, with some parts in place of the plain ones. An empty part is left out, with what leads to it.
func rawBook(parts map[string]string) []byte {
	all := map[string]string{
		"[Content_Types].xml": `<Types xmlns="` + typeNS + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + ooxml + `sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + ooxml + `worksheet+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet2.xml" ContentType="` + ooxml + `worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="` + ooxml + `styles+xml"/></Types>`,
		"_rels/.rels":     `<Relationships xmlns="` + packNS + `"><Relationship Id="a" Type="` + relNS + `/officeDocument" Target="/xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": plainWorkbook,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rIdA" Type="` + relNS + `/worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rIdB" Type="` + relNS + `/worksheet" Target="/xl/worksheets/sheet2.xml"/><Relationship Id="rIdC" Type="` + relNS + `/styles" Target="styles.xml"/></Relationships>`,
		"xl/styles.xml": plainStyles,
		"xl/worksheets/sheet1.xml": `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Site ID</t></is></c><c r="B1" t="inlineStr"><is><t>Area</t></is></c></row>` +
			`<row r="2"><c r="A2" t="inlineStr"><is><t>S000</t></is></c><c r="B2"><v>120.5</v></c></row></sheetData></worksheet>`,
		"xl/worksheets/sheet2.xml": `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="str"><f>'Results Summary'!A2</f></c></row></sheetData></worksheet>`,
	}
	for name, text := range parts {
		all[name] = text
	}
	for name, text := range all {
		if text == "" {
			delete(all, name)
			base := name[strings.LastIndex(name, "/")+1:]
			for _, from := range []string{"[Content_Types].xml", "xl/_rels/workbook.xml.rels"} {
				all[from] = dropElement(all[from], base)
			}
		}
	}
	return zipped(all, zip.Deflate)
}

func zipped(parts map[string]string, method uint16) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for name, text := range parts {
		f, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: method})
		if err != nil {
			panic(err) // into memory
		}
		if _, err := f.Write([]byte(text)); err != nil {
			panic(err)
		}
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// prefixed is a workbook in which every name has a prefix, as a well-known software kit writes them.
func prefixed() []byte {
	x := func(s, space, p string) string {
		s = strings.Replace(s, `xmlns="`+space+`"`, `xmlns:`+p+`="`+space+`"`, 1)
		s = strings.ReplaceAll(s, "</", "\x00")
		s = strings.ReplaceAll(s, "<", "<"+p+":")
		return strings.ReplaceAll(s, "\x00", "</"+p+":")
	}
	sheet := `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Site ID</t></is></c></row><row r="2"><c r="A2" s="0" t="inlineStr"><is><t>S000</t></is></c></row></sheetData></worksheet>`
	return rawBook(map[string]string{
		"xl/workbook.xml":          x(plainWorkbook, mainNS, "x"),
		"xl/styles.xml":            x(plainStyles, mainNS, "x"),
		"xl/worksheets/sheet1.xml": x(sheet, mainNS, "x"),
		"xl/_rels/workbook.xml.rels": x(`<Relationships xmlns="`+packNS+`"><Relationship Id="rIdA" Type="`+relNS+`/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rIdB" Type="`+relNS+
			`/worksheet" Target="/xl/worksheets/sheet2.xml"/><Relationship Id="rIdC" Type="`+relNS+`/styles" Target="styles.xml"/></Relationships>`, packNS, "p"),
	})
}

// elsewhere is a workbook whose parts have other names and places than usual.
func elsewhere() []byte {
	plain := map[string]string{
		"[Content_Types].xml": `<Types xmlns="` + typeNS + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="` + ooxml + `worksheet+xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + ooxml + `sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="` + ooxml + `styles+xml"/></Types>`,
		"_rels/.rels":                `<Relationships xmlns="` + packNS + `"><Relationship Id="a" Type="` + relNS + `/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            plainWorkbook,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rIdA" Type="` + relNS + `/worksheet" Target="../data/Sheet7.xml"/><Relationship Id="rIdB" Type="` + relNS + `/worksheet" Target="worksheets/SHEET1.XML"/><Relationship Id="rId1" Type="` + relNS + `/styles" Target="/xl/styles.xml"/></Relationships>`,
		"xl/styles.xml":              plainStyles,
		"data/Sheet7.xml":            `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Site ID</t></is></c></row></sheetData></worksheet>`,
		"xl/worksheets/SHEET1.XML":   `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="str"><f>'Results Summary'!A2</f></c></row></sheetData></worksheet>`,
		"xl/tables/table1.xml":       `<orphan/>`,
		"xl/worksheets/":             "",
	}
	return zipped(plain, zip.Deflate)
}

// atRoot is a workbook whose parts lie in no folder.
func atRoot() []byte {
	return zipped(map[string]string{
		"[Content_Types].xml": `<Types xmlns="` + typeNS + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/workbook.xml" ContentType="` + ooxml + `sheet.main+xml"/><Override PartName="/sites.xml" ContentType="` + ooxml + `worksheet+xml"/><Override PartName="/mine.xml" ContentType="` + ooxml + `worksheet+xml"/></Types>`,
		"_rels/.rels":             `<Relationships xmlns="` + packNS + `"><Relationship Id="a" Type="` + relNS + `/officeDocument" Target="workbook.xml"/></Relationships>`,
		"workbook.xml":            plainWorkbook,
		"_rels/workbook.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rIdA" Type="` + relNS + `/worksheet" Target="sites.xml"/><Relationship Id="rIdB" Type="` + relNS + `/worksheet" Target="mine.xml"/></Relationships>`,
		"sites.xml":               `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>Site ID</t></is></c></row></sheetData></worksheet>`,
		"mine.xml":                `<worksheet xmlns="` + mainNS + `"><sheetData><row r="1"><c r="A1" t="str"><f>'Results Summary'!A2</f></c></row></sheetData></worksheet>`,
	}, zip.Deflate)
}

// later are parts that later editions of the format brought.
func later() map[string]string {
	return map[string]string{
		"[Content_Types].xml": `<Types xmlns="` + typeNS + `"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Default Extension="bin" ContentType="` + ooxml + `printerSettings"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + ooxml + `sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + ooxml + `worksheet+xml"/><Override PartName="/xl/worksheets/sheet2.xml" ContentType="` + ooxml + `worksheet+xml"/>` +
			`<Override PartName="/xl/styles.xml" ContentType="` + ooxml + `styles+xml"/><Override PartName="/xl/calcChain.xml" ContentType="` + ooxml + `calcChain+xml"/><Override PartName="/xl/metadata.xml" ContentType="` + ooxml + `sheetMetadata+xml"/>` +
			`<Override PartName="/xl/persons/person.xml" ContentType="application/vnd.ms-excel.person+xml"/><Override PartName="/xl/threadedComments/threadedComment1.xml" ContentType="application/vnd.ms-excel.threadedcomments+xml"/>` +
			`<Override PartName="/xl/externalLinks/externalLink1.xml" ContentType="` + ooxml + `externalLink+xml"/><Override PartName="/xl/sharedStrings.xml" ContentType="` + ooxml + `sharedStrings+xml"/></Types>`,
		"xl/workbook.xml": `<workbook xmlns="` + mainNS + `" xmlns:r="` + relNS + `" xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" mc:Ignorable="x15 xr" xmlns:x15="http://schemas.microsoft.com/office/spreadsheetml/2010/11/main" xmlns:xr="http://schemas.microsoft.com/office/spreadsheetml/2014/revision"><fileVersion appName="xl" lastEdited="7" lowestEdited="4" rupBuild="27328"/>` +
			`<workbookPr/><mc:AlternateContent xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006"><mc:Choice Requires="x15"><x15ac:absPath xmlns:x15ac="http://schemas.microsoft.com/office/spreadsheetml/2010/11/ac" url="C:\work\"/></mc:Choice></mc:AlternateContent>` +
			`<xr:revisionPtr revIDLastSave="0" documentId="13_ncr:1_{0}" xr6:coauthVersionLast="47" xmlns:xr6="http://schemas.microsoft.com/office/spreadsheetml/2016/revision6"/><sheets><sheet name="Sites" sheetId="7" r:id="rIdA"/><sheet name="Mine" sheetId="3" r:id="rIdB"/></sheets>` +
			`<externalReferences><externalReference r:id="rIdX"/></externalReferences><calcPr calcId="191029"/><extLst><ext uri="{B58B0392-4F1F-4190-BB64-5DF3571DCE5F}" xmlns:xcalcf="http://schemas.microsoft.com/office/spreadsheetml/2018/calcfeatures"><xcalcf:calcFeatures><xcalcf:feature name="microsoft.com:RD"/></xcalcf:calcFeatures></ext></extLst></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rIdA" Type="` + relNS + `/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rIdB" Type="` + relNS + `/worksheet" Target="worksheets/sheet2.xml"/>` +
			`<Relationship Id="rIdC" Type="` + relNS + `/styles" Target="styles.xml"/><Relationship Id="rIdD" Type="` + relNS + `/calcChain" Target="calcChain.xml"/><Relationship Id="rIdE" Type="` + relNS + `/sheetMetadata" Target="metadata.xml"/>` +
			`<Relationship Id="rIdF" Type="` + microNS + `/person" Target="persons/person.xml"/><Relationship Id="rIdX" Type="` + relNS + `/externalLink" Target="externalLinks/externalLink1.xml"/><Relationship Id="rIdS" Type="` + relNS + `/sharedStrings" Target="sharedStrings.xml"/></Relationships>`,
		"xl/calcChain.xml":                              declared + `<calcChain xmlns="` + mainNS + `"><c r="A1" i="3" l="1"/></calcChain>`,
		"xl/metadata.xml":                               declared + `<metadata xmlns="` + mainNS + `"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" cellMeta="1"/></metadataTypes></metadata>`,
		"xl/persons/person.xml":                         declared + `<personList xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><person displayName="Ann" id="{00000000-0000-0000-0000-000000000001}" userId="ann" providerId="None"/></personList>`,
		"xl/threadedComments/threadedComment1.xml":      declared + `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="A2" dT="2026-01-02T03:04:05.00" personId="{00000000-0000-0000-0000-000000000001}" id="{00000000-0000-0000-0000-000000000002}"><text>why?</text></threadedComment></ThreadedComments>`,
		"xl/worksheets/_rels/sheet1.xml.rels":           `<Relationships xmlns="` + packNS + `"><Relationship Id="rId1" Type="` + microNS + `/threadedComment" Target="../threadedComments/threadedComment1.xml"/><Relationship Id="rId2" Type="` + relNS + `/printerSettings" Target="../printerSettings/printerSettings1.bin"/></Relationships>`,
		"xl/printerSettings/printerSettings1.bin":       "\x00\x01\x02printer",
		"xl/externalLinks/externalLink1.xml":            declared + `<externalLink xmlns="` + mainNS + `"><externalBook xmlns:r="` + relNS + `" r:id="rId1"><sheetNames><sheetName val="Prices"/></sheetNames></externalBook></externalLink>`,
		"xl/externalLinks/_rels/externalLink1.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rId1" Type="` + relNS + `/externalLinkPath" Target="prices.xlsx" TargetMode="External"/></Relationships>`,
		"xl/sharedStrings.xml":                          declared + `<sst xmlns="` + mainNS + `" count="2" uniqueCount="2"><si><t>Site ID</t></si><si><r><t xml:space="preserve">S</t></r><r><rPr><b/></rPr><t>000</t></r><rPh sb="0" eb="1"><t>x</t></rPh></si></sst>`,
		"xl/worksheets/sheet1.xml":                      `<worksheet xmlns="` + mainNS + `" xmlns:r="` + relNS + `"><sheetData><row r="1"><c r="A1" t="s"><v>0</v></c></row><row r="2"><c r="A2" t="s"><v>1</v></c><c r="B2" cm="1"><f t="array" ref="B2">SUM([1]Prices!A1:A9)</f><v>3</v></c></row></sheetData><pageSetup r:id="rId2"/></worksheet>`,
		"customXml/item1.xml":                           `<a xmlns="urn:mine">kept</a>`,
		"docMetadata/LabelInfo.xml":                     `<clbl:labelList xmlns:clbl="http://schemas.microsoft.com/office/2020/mipLabelMetadata"/>`,
	}
}

// stored is a workbook whose parts are not packed, and begin with byte order marks.
func stored() []byte {
	all := map[string]string{}
	r, err := zip.NewReader(bytes.NewReader(rawBook(nil)), int64(len(rawBook(nil))))
	if err != nil {
		panic(err) // from memory
	}
	for _, f := range r.File {
		in, _ := f.Open()
		var b bytes.Buffer
		_, _ = b.ReadFrom(in)
		all[f.Name] = "\ufeff" + declared + b.String()
	}
	return zipped(all, zip.Store)
}

// signed is a workbook with a digital signature.
func signed() map[string]string {
	return map[string]string{
		"_rels/.rels":                           `<Relationships xmlns="` + packNS + `"><Relationship Id="a" Type="` + relNS + `/officeDocument" Target="xl/workbook.xml"/><Relationship Id="s" Type="http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/origin" Target="_xmlsignatures/origin.sigs"/></Relationships>`,
		"_xmlsignatures/origin.sigs":            " ",
		"_xmlsignatures/sig1.xml":               `<Signature xmlns="http://www.w3.org/2000/09/xmldsig#"/>`,
		"_xmlsignatures/_rels/origin.sigs.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="a" Type="http://schemas.openxmlformats.org/package/2006/relationships/digital-signature/signature" Target="sig1.xml"/></Relationships>`,
	}
}

// logged is a workbook that several people work on at once, with a log of who changed what.
func logged() map[string]string {
	return map[string]string{
		"xl/_rels/workbook.xml.rels": `<Relationships xmlns="` + packNS + `"><Relationship Id="rIdA" Type="` + relNS + `/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rIdB" Type="` + relNS + `/worksheet" Target="worksheets/sheet2.xml"/>` +
			`<Relationship Id="rIdR" Type="` + relNS + `/revisionHeaders" Target="revisions/revisionHeaders.xml"/></Relationships>`,
		"xl/revisions/revisionHeaders.xml": `<headers xmlns="` + mainNS + `" guid="{0}"/>`,
	}
}

// twice is a zip that holds the same part under two names that differ in case.
func twice() []byte {
	all := map[string]string{}
	r, err := zip.NewReader(bytes.NewReader(rawBook(nil)), int64(len(rawBook(nil))))
	if err != nil {
		panic(err)
	}
	for _, f := range r.File {
		in, _ := f.Open()
		var b bytes.Buffer
		_, _ = b.ReadFrom(in)
		all[f.Name] = b.String()
	}
	all["xl/Workbook.xml"] = all["xl/workbook.xml"]
	return zipped(all, zip.Deflate)
}
