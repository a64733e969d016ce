// Package memo computes a value once per key, whoever asks.
package memo

import "sync"

// Map is a value computed once per key. The zero Map is ready. It is safe for several goroutines, and the only thing in calc that locks.
type Map[K comparable, V any] struct {
	mu     sync.Mutex
	values map[K]func() (V, error)
	shared int
}

// Get returns the value of k, which f computes at the first call. An error or a panic repeats for every later call with the same key.
func (m *Map[K, V]) Get(k K, f func(K) (V, error)) (V, error) {
	m.mu.Lock()
	once, found := m.values[k]
	if found {
		m.shared++
	} else {
		once = sync.OnceValues(func() (V, error) { return f(k) })
		if m.values == nil {
			m.values = map[K]func() (V, error){}
		}
		m.values[k] = once
	}
	m.mu.Unlock()
	return once()
}

// Counts is how often a Map computed a value and how often it gave one again.
type Counts struct{ Computed, Shared int }

// Counts tells what was asked so far.
func (m *Map[K, V]) Counts() Counts {
	m.mu.Lock()
	defer m.mu.Unlock()
	return Counts{len(m.values), m.shared}
}
