package main

import (
	"errors"
	"reflect"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc"
	"thawbook/report"
)

// TestEveryFieldChangesTheFingerprint: whatever is changed in what a PDF is made from, exported fields of exported fields included, it gets another
// fingerprint. --only-changed rests on it.
func TestEveryFieldChangesTheFingerprint(t *testing.T) {
	for _, made := range []any{&calc.SiteOutcome{}, &calc.Settings{}, &report.Logo{}, &report.Attached{}} {
		root := reflect.ValueOf(made)
		v := varied{root: root, tell: func(path, before, after string) { assert.NotEqual(t, before, after, path) }}
		v.walk(root.Elem(), root.Elem().Type().String(), nil)
		require.Positive(t, v.fields)
		t.Logf("%s: %d fields", root.Elem().Type(), v.fields)
	}
}

// varied changes one field of a structure after the other, and takes each change back.
type varied struct {
	root   reflect.Value
	fields int
	tell   func(path, before, after string)
}

// change puts a value in the place of another one while it is looked at, and looks further into it.
func (v *varied) change(at, to reflect.Value, path string, further func()) {
	v.fields++
	before, was := fingerprint(v.root.Interface()), reflect.New(at.Type()).Elem()
	was.Set(at)
	at.Set(to)
	v.tell(path, before, fingerprint(v.root.Interface()))
	further()
	at.Set(was)
}

func (v *varied) walk(at reflect.Value, path string, within []reflect.Type) {
	kind, typ := at.Kind(), at.Type()
	if slices.Contains(within, typ) && (kind == reflect.Struct || kind == reflect.Pointer) {
		return // a type that holds itself
	}
	within = append(slices.Clone(within), typ)
	nothing := func() {}
	switch kind {
	case reflect.Struct:
		for i := range typ.NumField() {
			if f := typ.Field(i); f.IsExported() {
				v.walk(at.Field(i), path+"."+f.Name, within)
			}
		}
	case reflect.Array:
		v.walk(at.Index(0), path+"[0]", within)
		v.walk(at.Index(at.Len()-1), path+"[last]", within)
	case reflect.Slice:
		v.change(at, reflect.MakeSlice(typ, 1, 1), path, func() { v.walk(at.Index(0), path+"[0]", within) })
	case reflect.Pointer:
		v.change(at, reflect.New(typ.Elem()), path, func() { v.walk(at.Elem(), path, within) })
	case reflect.Map:
		one := reflect.MakeMap(typ)
		one.SetMapIndex(reflect.Zero(typ.Key()), reflect.Zero(typ.Elem()))
		v.change(at, one, path, nothing)
	case reflect.Interface:
		v.change(at, reflect.ValueOf(errors.New("changed")), path, nothing)
	default:
		v.change(at, other(typ), path, nothing)
	}
}

// other returns a plain value that is not the zero value.
func other(typ reflect.Type) reflect.Value {
	v := reflect.New(typ).Elem()
	switch {
	case v.CanInt():
		v.SetInt(1)
	case v.CanUint():
		v.SetUint(1)
	case v.CanFloat():
		v.SetFloat(1e-300)
	case v.Kind() == reflect.Bool:
		v.SetBool(true)
	default:
		v.SetString("changed")
	}
	return v
}
