package units

import "encoding/json"

// Maybe is a value that may be blank. The zero Maybe is blank. It is comparable when T is, so that it can stand in a memo key.
type Maybe[T any] struct {
	Value T
	Known bool
}

// Some returns a known value.
func Some[T any](v T) Maybe[T] { return Maybe[T]{v, true} }

// Or returns the value, or the one given when it is blank.
func (m Maybe[T]) Or(blank T) T {
	if m.Known {
		return m.Value
	}
	return blank
}

// MarshalJSON writes a blank as null.
func (m Maybe[T]) MarshalJSON() ([]byte, error) {
	if !m.Known {
		return []byte("null"), nil
	}
	return json.Marshal(m.Value)
}
