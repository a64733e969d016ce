package book

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestElementsByTheirPlaces(t *testing.T) {
	text := []byte("\ufeff<?xml version=\"1.0\"?>\n<x:a xmlns:x=\"u\" b = 'c>d'><!-- <x:e/> --><x:e one=\"1\"/><f xmlns=\"v\">g&amp;<![CDATA[<h>]]></f></x:a>")
	root, err := Parse(text, 2)
	require.NoError(t, err)
	assert.Equal(t, []string{"u", "a"}, []string{root.Space, root.Local})
	require.Len(t, root.Kids, 2)
	e, f := root.Kids[0], root.Kids[1]
	assert.Equal(t, `<x:e one="1"/>`, e.In(text))
	assert.Equal(t, "g&<h>", Unescape(f.Content(text)))
	assert.Equal(t, "x:", root.prefix(text))
	got := Apply(text, e.Within(text, "<y/>"), e.WithAttr(text, "two", `"`), e.WithAttr(text, "one", ""), f.Within(text, "i"))
	assert.Contains(t, string(got), `<x:e two="&#34;"><y/></x:e><f xmlns="v">g&amp;<![CDATA[<h>]]>i</f>`)
	_, err = Parse([]byte("<a><b></a>"), 3)
	assert.Error(t, err, "what is not well formed is not edited")
}

func TestAttributes(t *testing.T) {
	const tag = "<c  r='A1'\n s=\"1\" xml:space = \"preserve\" x=\"\"/>"
	assert.Equal(t, "A1", TagAttr(tag, "r"))
	assert.Equal(t, "preserve", TagAttr(tag, "xml:space"))
	assert.Equal(t, "", TagAttr(tag, "x"))
	assert.Equal(t, "", TagAttr(tag, "space"))
	assert.Equal(t, "<c\n s=\"1\" xml:space = \"preserve\" x=\"\"/>", WithoutAttr(tag, "r"))
	assert.Equal(t, "A2", TagAttr(ReplaceAttr(tag, "r", "A2"), "r"))
}

func TestTargets(t *testing.T) {
	for _, tt := range []struct{ from, to, want string }{
		{"xl/workbook.xml", "xl/worksheets/sheet1.xml", "worksheets/sheet1.xml"},
		{"xl/worksheets/sheet1.xml", "xl/tables/table1.xml", "../tables/table1.xml"},
		{"xl/workbook.xml", "data/sheet.xml", "../data/sheet.xml"},
		{"book.xml", "worksheets/sheet1.xml", "worksheets/sheet1.xml"},
	} {
		assert.Equal(t, tt.want, target(tt.from, tt.to))
		assert.Equal(t, tt.to, resolve(tt.from, target(tt.from, tt.to)))
		assert.Equal(t, tt.to, resolve(tt.from, "/"+tt.to))
	}
	assert.Equal(t, "xl/worksheets/sheet1.xml", resolve("xl/workbook.xml", `worksheets\sheet1.xml`))
}

func TestANewWorkbookTakesSheetsAndNames(t *testing.T) {
	b, err := New("us & co", "<a title>")
	require.NoError(t, err)
	part, err := b.AddSheet(`Snow & "ice"`)
	require.NoError(t, err)
	assert.Equal(t, "xl/worksheets/sheet1.xml", part)
	require.NoError(t, b.Pack(part, []byte(`<worksheet xmlns="`+mainSpace+`">`), []byte(`<sheetData/></worksheet>`)))
	_, err = b.Styles()
	require.NoError(t, err)
	name := Name{Name: "mine", Sheet: -1, Text: `'Snow & "ice"'!$A$1`}
	require.NoError(t, b.SetName(name))
	require.NoError(t, b.SetName(Name{Name: "mine", Sheet: 0, Text: "1"}))
	require.NoError(t, b.CalculateOnLoad())
	var one, two bytes.Buffer
	require.NoError(t, b.Write(&one))
	again, err := Open(one.Bytes())
	require.NoError(t, err)
	list, err := again.Sheets()
	require.NoError(t, err)
	assert.Equal(t, []Sheet{{Name: `Snow & "ice"`, Part: part, ID: "1"}}, list)
	names, err := again.Names()
	require.NoError(t, err)
	assert.Equal(t, []Name{name, {Name: "mine", Sheet: 0, Text: "1"}}, names)
	require.NoError(t, again.SetName(name))
	require.NoError(t, again.CalculateOnLoad())
	require.NoError(t, again.Write(&two))
	assert.True(t, bytes.Equal(one.Bytes(), two.Bytes()), "what is there already is left alone")
	name.Text = "2"
	require.NoError(t, again.SetName(name))
	require.NoError(t, again.DropName(Name{Name: "mine", Sheet: 0}))
	names, err = again.Names()
	require.NoError(t, err)
	assert.Equal(t, []Name{name}, names)
}

func TestStylesGrowAtTheEndOfTheirLists(t *testing.T) {
	b, err := New("", "")
	require.NoError(t, err)
	_, err = b.Styles()
	require.NoError(t, err)
	const was = `<x:styleSheet xmlns:x="` + mainSpace + `"><x:fonts><x:font><x:name val="Verdana"/></x:font></x:fonts><x:fills count="7"/><x:borders count="1"><x:border/></x:borders><x:cellStyleXfs count="1"><x:xf/></x:cellStyleXfs>` +
		`<x:cellXfs count="2"><x:xf/><x:xf/></x:cellXfs><x:dxfs/><x:tableStyles count="0"/></x:styleSheet>`
	b.Set(b.styles, []byte(was))
	base, err := b.Styles()
	require.NoError(t, err)
	assert.Equal(t, "Verdana", Font(base))
	root, err := Parse(base, 3)
	require.NoError(t, err)
	for name, count := range map[string]string{"fonts": "1", "fills": "2", "borders": "1", "cellXfs": "2", "cellStyles": "1", "dxfs": "0"} {
		require.NotNil(t, root.Child(name), name)
		assert.Equal(t, count, root.Child(name).Attr("count"), name)
	}
	grown := strings.NewReplacer("</x:cellXfs>", `<x:xf numFmtId="9"/></x:cellXfs>`, `<x:dxfs count="0"/>`, `<x:dxfs count="1"><x:dxf/></x:dxfs>`).Replace(string(base))
	plain := strings.NewReplacer("<x:", "<", "</x:", "</", "xmlns:x=", "xmlns=").Replace(grown)
	require.NoError(t, b.GrowStyles(base, []byte(plain)))
	text, err := b.Part(b.styles)
	require.NoError(t, err)
	assert.Contains(t, string(text), `<x:xf/><x:xf/><xf xmlns="`+mainSpace+`" numFmtId="9"/></x:cellXfs>`)
	assert.Contains(t, string(text), `<x:dxfs count="1"><dxf xmlns="`+mainSpace+`"/></x:dxfs><x:tableStyles`)
	assert.Error(t, b.GrowStyles(base, []byte(strings.Replace(plain, "<xf/><xf/>", "", 1))), "a format that is lost is told")
}

func TestPartsAreKnownWithoutRegardToCase(t *testing.T) {
	b, err := New("", "")
	require.NoError(t, err)
	assert.True(t, b.Has("XL/Workbook.xml"))
	assert.Equal(t, "xl/a1.xml", b.Free("a*.xml"))
	b.Set("xl/A1.XML", []byte("<a/>"))
	assert.Equal(t, "xl/a2.xml", b.Free("a*.xml"))
	require.NoError(t, b.SetType("xl/A1.XML", "some/type"))
	require.NoError(t, b.Drop("xl/a1.xml"))
	text, err := b.Part(typesPart)
	require.NoError(t, err)
	assert.NotContains(t, string(text), "some/type")
}
