package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/calc/units"
	"thawbook/report/show"
	"thawbook/report/words"
	"thawbook/templates"
)

var tables = []string{words.Findings, words.Sentences, words.Reasons, words.Cautions, words.Topics, words.Checklist, words.Defaults}

func english(t *testing.T) *words.Words {
	t.Helper()
	w, err := words.Load(templates.FS(), "en", show.Style{Currency: "USD"})
	require.NoError(t, err)
	return w
}

func TestCodesAreKebabCase(t *testing.T) {
	w := english(t)
	for _, table := range tables {
		for _, code := range w.Codes(table) {
			assert.Regexp(t, `^[a-z0-9]+(-[a-z0-9]+)*$`, code, table)
		}
	}
}

func TestPlaceholdersAreWellFormed(t *testing.T) {
	w := english(t)
	good := regexp.MustCompile(`\{[a-z][a-z0-9_-]*\}`)
	for _, table := range tables {
		for _, code := range w.Codes(table) {
			for _, text := range w.Line(table, code) {
				assert.NotContains(t, good.ReplaceAllString(text, ""), "{", "%s: %s", table, code)
				assert.NotContains(t, good.ReplaceAllString(text, ""), "}", "%s: %s", table, code)
				assert.Equal(t, strings.TrimSpace(text), text, "%s: %s", table, code)
			}
		}
	}
}

func TestEveryFindingSaysWhatToDo(t *testing.T) {
	w := english(t)
	for _, code := range w.Codes(words.Findings) {
		what, do := w.Finding(finding.Finding{Code: finding.Code(code)})
		assert.NotEmpty(t, what, code)
		assert.NotEmpty(t, do, code)
	}
}

// Every finding.Code constant of the program has its words, and no words stand there for a code that nothing raises.
func TestFindingsAndTheirWords(t *testing.T) {
	w := english(t)
	raised := map[string]string{}
	for _, folder := range []string{"calc", "ingest", "report", "cmd"} {
		codes(t, filepath.Join(root(t), folder), raised)
	}
	require.NotEmpty(t, raised)
	for code, where := range raised {
		assert.True(t, w.Has(words.Findings, code), "%s: findings.tsv has no words for %q", where, code)
	}
	raisedByRules(t, raised)
	for _, code := range w.Codes(words.Findings) {
		_, found := raised[code]
		assert.True(t, found, "nothing raises %q, which findings.tsv has words for", code)
	}
}

// raisedByRules adds the codes that decision tables name in a cell.
func raisedByRules(t *testing.T, into map[string]string) {
	t.Helper()
	files, err := fs.Glob(templates.FS(), "rules/*.tsv")
	require.NoError(t, err)
	for _, file := range files {
		data, err := fs.ReadFile(templates.FS(), file)
		require.NoError(t, err)
		for cell := range strings.FieldsFuncSeq(string(data), func(r rune) bool { return r == '\t' || r == '\n' || r == '\r' }) {
			into[cell] = file
		}
	}
}

// codes collects the constants of type finding.Code below a folder, with the file of each.
func codes(t *testing.T, folder string, into map[string]string) {
	t.Helper()
	err := filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, d := range file.Decls {
			if g, is := d.(*ast.GenDecl); is && g.Tok == token.CONST {
				constants(g, path, into)
			}
		}
		return nil
	})
	require.NoError(t, err)
}

func constants(g *ast.GenDecl, path string, into map[string]string) {
	for _, s := range g.Specs {
		v := s.(*ast.ValueSpec)
		kind, is := v.Type.(*ast.SelectorExpr)
		if !is || kind.Sel.Name != "Code" {
			continue
		}
		for _, value := range v.Values {
			if literal, is := value.(*ast.BasicLit); is {
				code, _ := strconv.Unquote(literal.Value)
				into[code] = path
			}
		}
	}
}

// root is the folder of the module.
func root(t *testing.T) string {
	t.Helper()
	dir, err := os.Getwd()
	require.NoError(t, err)
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		require.NotEqual(t, dir, filepath.Dir(dir), "no go.mod above the test")
		dir = filepath.Dir(dir)
	}
}

func load(t *testing.T, tsv string) (*words.Words, error) {
	t.Helper()
	return words.Load(fstest.MapFS{"en/findings.tsv": {Data: []byte(tsv)}}, "en", show.Style{Units: units.IP, Currency: "JPY"})
}

func TestFilled(t *testing.T) {
	w, err := load(t, "code\twhat\tdo\na\t{cell} is {area}, {money}, {cell}\tleave {unknown}\n")
	require.NoError(t, err)
	what, do := w.Finding(finding.Finding{Code: "a", Args: []finding.Arg{
		finding.Words("cell", "{area}"), finding.Value("area", 0.3048*0.3048*1234, units.Area), finding.Amount("money", 5000)}})
	assert.Equal(t, "{area} is 1,234\u00a0ft², JPY\u00a05,000, {area}", what, "what a cell holds is not looked into")
	assert.Equal(t, "leave {unknown}", do)
	what, _ = w.Finding(finding.Finding{Code: "none"})
	assert.Equal(t, "[none]", what)
}

func TestQuotationMarksAreText(t *testing.T) {
	w, err := load(t, "\ufeffcode\twhat\tdo\r\n# a remark\r\na\t\"{x}\" is not \"{y}\"\t\"say \"\"so\"\"\"\r\n")
	require.NoError(t, err)
	what, do := w.Finding(finding.Finding{Code: "a"})
	assert.Equal(t, `"{x}" is not "{y}"`, what)
	assert.Equal(t, `say "so"`, do, "a spreadsheet program put marks around the field")
}

func TestBrokenTablesNameTheirLine(t *testing.T) {
	for _, tt := range []struct{ name, tsv, want string }{
		{"too few columns", "code\twhat\n", "line 1: 2 columns, 3 wanted"},
		{"ragged", "code\twhat\tdo\n\na\tb\n", "line 3: 2 columns, 3 wanted"},
		{"twice", "code\twhat\tdo\na\tb\tc\na\tb\tc\n", `line 3: "a" stands twice`},
		{"no text", "code\twhat\tdo\na\t \tc\n", "line 2: a code or its text is empty"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := load(t, tt.tsv)
			require.ErrorContains(t, err, "en/findings.tsv: "+tt.want)
		})
	}
	_, err := words.Load(fstest.MapFS{}, "xx", show.Style{})
	require.ErrorContains(t, err, `no texts for language "xx"`)
}
