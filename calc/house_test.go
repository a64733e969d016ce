package calc_test

import (
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const module = "thawbook"

// listed is what "go list" tells of a package.
type listed struct {
	ImportPath string
	Imports    []string // of the program; tests may import more
}

// packages lists the module's packages.
func packages(t *testing.T) []listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Imports", "./...")
	cmd.Dir = ".."
	out, err := cmd.Output()
	require.NoError(t, err)
	var all []listed
	for dec := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p listed
		err := dec.Decode(&p)
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
		all = append(all, p)
	}
	require.Greater(t, len(all), 20)
	return all
}

// within says whether a package is one of a folder, given from the module's root.
func within(path, folder string) bool {
	return path == module+"/"+folder || strings.HasPrefix(path, module+"/"+folder+"/")
}

// rooms of calc: a room imports only rooms above it.
var rooms = []string{"units", "finding", "trace", "facts", "memo", "air", "weather", "surface", "slab", "setpoint", "sensing", "season", "piping", "plant",
	"electric", "cost", "portfolio"}

// TestPageForContributorsListsTheRooms in their order.
func TestPageForContributorsListsTheRooms(t *testing.T) {
	page, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	assert.Contains(t, string(page), ": "+strings.Join(rooms, ", ")+" |")
}

// calcLibrary is the standard library that calc may use: nothing that reads files, clocks or networks, prints or logs.
var calcLibrary = []string{"bufio", "bytes", "cmp", "crypto/sha256", "encoding/binary", "encoding/hex", "encoding/json", "errors", "fmt", "hash", "io", "iter", "maps", "math",
	"math/bits", "slices", "sort", "strconv", "strings", "unicode", "unicode/utf8"}

func TestRoomsImportRoomsAboveThem(t *testing.T) {
	for _, p := range packages(t) {
		if !within(p.ImportPath, "calc") {
			continue
		}
		room := strings.TrimPrefix(strings.TrimPrefix(p.ImportPath, module+"/calc"), "/")
		place := slices.Index(rooms, room)
		if room == "" {
			place = len(rooms)
		}
		require.GreaterOrEqual(t, place, 0, "%s has no place in the order of rooms", p.ImportPath)
		for _, i := range p.Imports {
			other, inside := strings.CutPrefix(i, module+"/calc/")
			switch {
			case inside:
				assert.Less(t, slices.Index(rooms, other), place, "%s imports %s, which does not stand above it", p.ImportPath, i)
			case i == "sync":
				assert.Equal(t, "memo", room, "only memo locks")
			case strings.HasPrefix(i, "gonum.org/"), i == "golang.org/x/text/unicode/norm": // pure libraries: mathematics, accents of names
			default:
				assert.Contains(t, calcLibrary, i, "%s imports %s", p.ImportPath, i)
			}
		}
	}
}

func TestArrowsBetweenFolders(t *testing.T) {
	forbidden := map[string][]string{
		"calc":      {"cmd", "ingest", "report", "templates"},
		"ingest":    {"cmd", "report"},
		"report":    {"cmd", "ingest"},
		"templates": {"cmd", "calc", "ingest", "report"},
	}
	for _, p := range packages(t) {
		for folder, list := range forbidden {
			if !within(p.ImportPath, folder) {
				continue
			}
			for _, i := range p.Imports {
				for _, f := range list {
					assert.False(t, within(i, f), "%s imports %s", p.ImportPath, i)
				}
			}
		}
	}
}

// TestLibrariesKeepToTheirRooms: the spreadsheet library is used where sheets are read and written, the PDF library in the submittal; charts draw
// with gonum's plot onto a canvas that the submittal hands them.
func TestLibrariesKeepToTheirRooms(t *testing.T) {
	allowed := map[string][]string{
		"github.com/xuri/excelize":        {"ingest/sheet", "ingest/starter", "report/sheets"},
		"github.com/johnfercher/":         {"report/submittal"},
		"github.com/phpdave11/gofpdf":     {"report/submittal"},
		"gonum.org/v1/plot":               {"report/chart", "report/submittal"},
		"github.com/spf13/pflag":          {"cmd"},
		"golang.org/x/term":               {"cmd"},
		"github.com/stretchr/testify":     {},
		"github.com/rogpeppe/go-internal": {},
	}
	for _, p := range packages(t) {
		for _, i := range p.Imports {
			for library, folders := range allowed {
				if strings.HasPrefix(i, library) {
					assert.True(t, slices.ContainsFunc(folders, func(f string) bool { return within(p.ImportPath, f) }), "%s imports %s", p.ImportPath, i)
				}
			}
		}
		if within(p.ImportPath, "ingest/columns") {
			for _, i := range p.Imports {
				assert.True(t, within(i, "calc") || slices.Contains(calcLibrary, i), "columns are data: they import calc, not %s", i)
			}
		}
	}
}

// files parses every Go file of calc that is not a test.
func files(t *testing.T) (*token.FileSet, map[string]*ast.File) {
	t.Helper()
	set, parsed := token.NewFileSet(), map[string]*ast.File{}
	require.NoError(t, filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		parsed[path], err = parser.ParseFile(set, path, nil, parser.ParseComments)
		return err
	}))
	require.NotEmpty(t, parsed)
	return set, parsed
}

// TestEveryExportedNameIsDescribed: functions, methods, types, constants and variables have a comment of their own or of their group.
func TestEveryExportedNameIsDescribed(t *testing.T) {
	set, parsed := files(t)
	for _, file := range parsed {
		for _, d := range file.Decls {
			for _, name := range undescribed(d) {
				assert.Fail(t, "no comment", "%s: %s", set.Position(d.Pos()), name)
			}
		}
	}
}

// undescribed returns the exported names of a declaration that have no comment.
func undescribed(d ast.Decl) []string {
	var names []string
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Name.IsExported() && d.Doc == nil && (d.Recv == nil || exportedReceiver(d.Recv)) {
			names = append(names, d.Name.Name)
		}
	case *ast.GenDecl:
		for _, s := range d.Specs {
			switch s := s.(type) {
			case *ast.TypeSpec:
				if s.Name.IsExported() && d.Doc == nil && s.Doc == nil {
					names = append(names, s.Name.Name)
				}
			case *ast.ValueSpec:
				for _, n := range s.Names {
					if n.IsExported() && d.Doc == nil && s.Doc == nil && s.Comment == nil {
						names = append(names, n.Name)
					}
				}
			}
		}
	}
	return names
}

func exportedReceiver(list *ast.FieldList) bool {
	exported := false
	ast.Inspect(list, func(n ast.Node) bool {
		if id, isName := n.(*ast.Ident); isName && len(id.Name) > 1 {
			exported = exported || id.IsExported()
		}
		return true
	})
	return exported
}

// TestEveryPackageIsDescribed: each room says in one comment what it is about, in one file only.
func TestEveryPackageIsDescribed(t *testing.T) {
	_, parsed := files(t)
	said := map[string]int{}
	for path, file := range parsed {
		folder := filepath.Dir(path)
		said[folder] += 0
		if file.Doc != nil {
			said[folder]++
		}
	}
	for folder, n := range said {
		assert.Equal(t, 1, n, "comments on package %s", folder)
	}
}
