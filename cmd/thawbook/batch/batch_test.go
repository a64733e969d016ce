package batch

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
)

func numbers(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// each runs a test with few and many workers, in a bubble that fails when a goroutine outlives it.
func each(t *testing.T, test func(t *testing.T, workers int)) {
	for _, workers := range []int{1, 2, 16} {
		t.Run(fmt.Sprintf("%d workers", workers), func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) { test(t, workers) })
		})
	}
}

func TestResultsLeaveInTheOrderOfTheItems(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		next := 0
		for i, r := range Ordered(t.Context(), numbers(200), workers, 20, func(_ context.Context, v int) int {
			time.Sleep(time.Duration(v*7919%13) * time.Millisecond)
			return v * v
		}) {
			assert.Equal(t, next, i)
			assert.Equal(t, next*next, r)
			next++
		}
		assert.Equal(t, 200, next)
	})
}

func TestSlowFirstItemStopsTheFeeding(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		const window = 4
		var begun, consumed, most atomic.Int64
		do := func(_ context.Context, v int) int {
			open := begun.Add(1) - consumed.Load()
			for old := most.Load(); open > old && !most.CompareAndSwap(old, open); old = most.Load() {
			}
			if v == 0 {
				time.Sleep(time.Hour)
			}
			return v
		}
		first := time.AfterFunc(time.Minute, func() {
			assert.Equal(t, int64(min(window, windowOf(workers, window))), begun.Load(), "begun while the first item is slow")
		})
		defer first.Stop()
		for range Ordered(t.Context(), numbers(100), workers, window, do) {
			consumed.Add(1)
		}
		assert.Equal(t, int64(100), begun.Load())
		assert.LessOrEqual(t, most.Load(), int64(window+1), "results at once: a place is free as soon as the loop comes round")
	})
}

// windowOf is how many items can begin beside a slow first one: one worker is held up by it.
func windowOf(workers, window int) int {
	if workers == 1 {
		return 1
	}
	return window
}

func TestAResultIsHeldUntilTheLoopComesRound(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		var begun atomic.Int64
		for i := range Ordered(t.Context(), numbers(10), workers, 1, func(context.Context, int) int { return int(begun.Add(1)) }) {
			time.Sleep(time.Second)
			assert.Equal(t, int64(i+1), begun.Load(), "a window of one begins the next item only after this one")
		}
	})
}

func TestBreakLeavesNoGoroutine(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		var begun, finished atomic.Int64
		for i := range Ordered(t.Context(), numbers(1000), workers, 8, func(context.Context, int) int {
			begun.Add(1)
			time.Sleep(time.Second)
			return int(finished.Add(1))
		}) {
			if i == 2 {
				break
			}
		}
		assert.Equal(t, begun.Load(), finished.Load(), "what began has finished when the loop is left")
		assert.Less(t, begun.Load(), int64(20))
	})
}

func TestCancelBeginsNothingAndYieldsWhatBegan(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		ctx, cancel := context.WithCancel(t.Context())
		defer cancel()
		time.AfterFunc(2500*time.Millisecond, cancel)
		var begun atomic.Int64
		var seen []int
		for i := range Ordered(ctx, numbers(1000), workers, 32, func(ctx context.Context, v int) int {
			assert.NoError(t, ctx.Err(), "item %d began after the cancel", v)
			begun.Add(1)
			time.Sleep(time.Second)
			return v
		}) {
			seen = append(seen, i)
		}
		assert.Equal(t, numbers(3*workers), seen, "three rounds had begun after two and a half seconds")
		assert.Equal(t, int64(3*workers), begun.Load())
	})
}

func TestCancelledFromTheStart(t *testing.T) {
	each(t, func(t *testing.T, workers int) {
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		for range Ordered(ctx, numbers(10), workers, 4, func(context.Context, int) int { return 0 }) {
			t.Error("an item began")
		}
	})
}

func TestOddNumbers(t *testing.T) {
	double := func(_ context.Context, v int) int { return 2 * v }
	for _, tt := range []struct {
		name                   string
		items, workers, window int
	}{
		{"no items", 0, 4, 4}, {"no workers", 5, 0, 4}, {"no window", 5, 4, 0}, {"negative", 5, -1, -1}, {"more workers than window", 50, 16, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			n := 0
			for i, r := range Ordered(t.Context(), numbers(tt.items), tt.workers, tt.window, double) {
				assert.Equal(t, 2*i, r)
				n++
			}
			assert.Equal(t, tt.items, n)
		})
	}
}
