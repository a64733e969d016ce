package main

import "sync"

// halts is what must be done before the process is ended from outside. The zero halts is ready.
type halts struct {
	mu   sync.Mutex
	list []func()
}

// add adds something to be done.
func (h *halts) add(f func()) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.list = append(h.list, f)
}

// run does all of it. Whoever adds more from then on waits for the end.
func (h *halts) run() {
	h.mu.Lock()
	for _, f := range h.list {
		f()
	}
}
