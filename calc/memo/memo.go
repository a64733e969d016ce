// Package memo computes a value once per key, whoever asks.
package memo

import "sync"

// Map is a value computed once per key. The zero Map is ready. It is safe for several goroutines, and the only thing in calc that locks.
type Map[K comparable, V any] struct {
	mu     sync.Mutex
	values map[K]func() (V, error)
}

// Get returns the value of k, which f computes at the first call. An error or a panic repeats for every later call with the same key.
func (m *Map[K, V]) Get(k K, f func(K) (V, error)) (V, error) {
	m.mu.Lock()
	once, found := m.values[k]
	if !found {
		once = sync.OnceValues(func() (V, error) { return f(k) })
		if m.values == nil {
			m.values = map[K]func() (V, error){}
		}
		m.values[k] = once
	}
	m.mu.Unlock()
	return once()
}
