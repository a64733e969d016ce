package main

import (
	"bufio"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"math"
	"reflect"
	"slices"
	"strings"
)

// fingerprint tells values apart: two are alike only when everything reached from them is, whatever the pointers, and whatever fields are added.
func fingerprint(values ...any) string {
	h := sha256.New()
	d := digester{bufio.NewWriter(h), h}
	for _, v := range values {
		d.value(reflect.ValueOf(v))
	}
	d.out.Flush()
	return hex.EncodeToString(h.Sum(nil))
}

// digester walks through a value and writes down what it meets, each with its kind and length, so that nothing runs together.
type digester struct {
	out  *bufio.Writer
	hash hash.Hash
}

func (d digester) value(v reflect.Value) {
	d.out.WriteByte(byte(v.Kind()))
	switch v.Kind() {
	case reflect.Invalid:
	case reflect.Pointer, reflect.Interface:
		d.reached(v)
	case reflect.Struct:
		for i := range v.NumField() {
			d.value(v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		d.number(uint64(v.Len()))
		for i := range v.Len() {
			d.value(v.Index(i))
		}
	case reflect.Map:
		d.sorted(v)
	default:
		d.plain(v)
	}
}

// reached goes to what a pointer leads to. An error counts by its text.
func (d digester) reached(v reflect.Value) {
	if v.IsNil() {
		d.out.WriteByte(0)
		return
	}
	if v.CanInterface() {
		if err, is := v.Interface().(error); is {
			d.text(err.Error())
			return
		}
	}
	d.value(v.Elem())
}

// sorted writes a map in an order of its own: that of its pairs' fingerprints.
func (d digester) sorted(v reflect.Value) {
	var pairs []string
	for _, k := range v.MapKeys() {
		h := sha256.New()
		pair := digester{bufio.NewWriter(h), h}
		pair.value(k)
		pair.value(v.MapIndex(k))
		pair.out.Flush()
		pairs = append(pairs, string(h.Sum(nil)))
	}
	slices.Sort(pairs)
	d.text(strings.Join(pairs, ""))
}

func (d digester) plain(v reflect.Value) {
	switch {
	case v.CanInt():
		d.number(uint64(v.Int()))
	case v.CanUint():
		d.number(v.Uint())
	case v.CanFloat():
		d.number(math.Float64bits(v.Float()))
	case v.Kind() == reflect.Bool && v.Bool():
		d.out.WriteByte(1)
	case v.Kind() == reflect.String:
		d.text(v.String())
	}
}

func (d digester) number(n uint64) {
	var b [8]byte
	binary.LittleEndian.PutUint64(b[:], n)
	d.out.Write(b[:])
}

func (d digester) text(s string) {
	d.number(uint64(len(s)))
	d.out.WriteString(s)
}
