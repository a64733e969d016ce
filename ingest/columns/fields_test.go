package columns_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/finding"
	"thawbook/ingest/columns"
)

func fieldsOf[T any](into map[finding.Field]int, list []columns.Column[T]) {
	for _, c := range list {
		into[c.Field]++
	}
}

// known returns every field of the workbook with how often it stands.
func known() map[finding.Field]int {
	all := map[finding.Field]int{columns.RateField: 1}
	fieldsOf(all, columns.Sites())
	fieldsOf(all, columns.Climate())
	fieldsOf(all, columns.Energy())
	fieldsOf(all, columns.Parts())
	fieldsOf(all, columns.Costs())
	fieldsOf(all, columns.Settings())
	fieldsOf(all, columns.Revisions())
	fieldsOf(all, columns.Accepted())
	fieldsOf(all, columns.Attachments())
	return all
}

func TestFieldsAreUnique(t *testing.T) {
	for field, n := range known() {
		assert.Equal(t, 1, n, field)
	}
}

// fieldPlace says which argument of a call names a field.
var fieldPlace = map[string]int{
	"New": 2, "add": 2, // finding.New(severity, code, field, …) and what hands its arguments on
	"take": 1, "word": 1, "flag": 1, // of settler
	"defaulted": 0, "wish": 0, "named": 1,
}

// TestFieldsOfCalcAreColumns: a finding or a default of calc names a column, so that it can be led back to its cell.
func TestFieldsOfCalcAreColumns(t *testing.T) {
	fields, seen := known(), 0
	set := token.NewFileSet()
	require.NoError(t, filepath.WalkDir("../../calc", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, isCall := n.(*ast.CallExpr)
			if !isCall {
				return true
			}
			field, named := fieldOf(call)
			if named && field != "" { // blank: about no single cell
				seen++
				assert.NotZero(t, fields[field], "%s: no column has the field %q", set.Position(call.Pos()), field)
			}
			return true
		})
		return nil
	}))
	assert.Greater(t, seen, 50, "calls that name a field")
}

// fieldOf returns the field that a call names as a literal.
func fieldOf(call *ast.CallExpr) (finding.Field, bool) {
	name := ""
	switch f := call.Fun.(type) {
	case *ast.Ident:
		name = f.Name
	case *ast.SelectorExpr:
		name = f.Sel.Name
	}
	at, watched := fieldPlace[name]
	if !watched || len(call.Args) <= at {
		return "", false
	}
	literal, isLiteral := call.Args[at].(*ast.BasicLit)
	if !isLiteral || literal.Kind != token.STRING {
		return "", false
	}
	text, err := strconv.Unquote(literal.Value)
	return finding.Field(text), err == nil
}

// TestDefaultsOfCalcAreSaidInColumns: what is settled from other cells has no default in its column, or it would never be blank.
func TestDefaultsOfCalcAreSaidInColumns(t *testing.T) {
	settled := []finding.Field{"elevation", "perimeter", "wind_length", "critical", "snow_free_ratio", "percentile", "slab_thickness", "conductivity", "surface_thickness",
		"bedding_thickness", "depth", "insulation", "supply_limit", "ground_temperature", "start_wanted", "stop_wanted", "idling_wanted", "panel_distance"}
	for _, c := range columns.Sites() {
		if slices.Contains(settled, c.Field) {
			assert.Empty(t, c.Default, c.Field)
		}
	}
}
