// Package batch does many things at once and hands the results on in the order of their items. It knows nothing of what the items are.
package batch

import (
	"context"
	"iter"
	"sync"
)

// Ordered does every item on the given number of workers and yields the results in the order of the items, with their index.
//
// At most window items are begun and not yet consumed, so that no more than window results exist at once: a slow first item stops the feeding.
// When ctx is cancelled no further item begins; those that have begun finish and are yielded. When the consumer breaks off, those that have begun
// finish unseen. No goroutine outlives the loop. Fewer than one worker or a window below one count as one.
func Ordered[T, R any](ctx context.Context, items []T, workers, window int, do func(context.Context, T) R) iter.Seq2[int, R] {
	return func(yield func(int, R) bool) {
		feeding, stop := context.WithCancel(ctx)
		var crew sync.WaitGroup
		defer crew.Wait()
		defer stop()

		b := newBelt[R](max(window, 1))
		crew.Go(func() { b.feed(feeding, len(items)) })
		for range min(max(workers, 1), len(items)) {
			crew.Go(func() {
				for j := range b.begin {
					if feeding.Err() == nil {
						j.result <- do(ctx, items[j.index])
					}
					close(j.result)
				}
			})
		}
		for j := range b.inOrder {
			r, begun := <-j.result
			if begun && !yield(j.index, r) {
				return
			}
			<-b.places
		}
	}
}

// job is one item on its way. Its result channel holds one result, and is closed without one when the item never began.
type job[R any] struct {
	index  int
	result chan R
}

// belt carries jobs from the feeder to the workers, and in the same order to the consumer.
type belt[R any] struct {
	places  chan struct{} // one is taken for each item begun and not yet consumed
	begin   chan job[R]
	inOrder chan job[R] // as long as there are places, so that a send never waits
}

func newBelt[R any](window int) belt[R] {
	return belt[R]{make(chan struct{}, window), make(chan job[R]), make(chan job[R], window)}
}

// feed hands out n jobs while there are places, until ctx is cancelled.
func (b belt[R]) feed(ctx context.Context, n int) {
	defer close(b.inOrder)
	defer close(b.begin)
	for i := range n {
		select {
		case b.places <- struct{}{}:
		case <-ctx.Done():
			return
		}
		j := job[R]{i, make(chan R, 1)}
		select {
		case b.begin <- j:
		case <-ctx.Done():
			return
		}
		b.inOrder <- j
	}
}
