package memo_test

import (
	"errors"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/memo"
)

func TestOncePerKey(t *testing.T) {
	const askers, keys = 16, 5
	var m memo.Map[int, int]
	var calls [keys]atomic.Int32
	var wg sync.WaitGroup
	start := make(chan struct{})
	for range askers {
		wg.Go(func() {
			<-start
			for k := range keys {
				v, err := m.Get(k, func(k int) (int, error) {
					calls[k].Add(1)
					return k * k, nil
				})
				assert.NoError(t, err)
				assert.Equal(t, k*k, v)
			}
		})
	}
	close(start)
	wg.Wait()
	for k := range keys {
		assert.EqualValues(t, 1, calls[k].Load(), "key %d", k)
	}
}

func TestErrorRepeats(t *testing.T) {
	var m memo.Map[string, float64]
	broken := errors.New("broken")
	calls := 0
	for range 3 {
		v, err := m.Get("k", func(string) (float64, error) {
			calls++
			return 0, broken
		})
		require.ErrorIs(t, err, broken)
		assert.Zero(t, v)
	}
	assert.Equal(t, 1, calls)
}

func TestPanicRepeats(t *testing.T) {
	var m memo.Map[string, float64]
	calls := 0
	for range 3 {
		assert.PanicsWithValue(t, "broken", func() {
			_, _ = m.Get("k", func(string) (float64, error) {
				calls++
				panic("broken")
			})
		}, "never a zero value in its place")
	}
	assert.Equal(t, 1, calls)
	v, err := m.Get("other", func(string) (float64, error) { return 1, nil })
	require.NoError(t, err)
	assert.Equal(t, 1.0, v, "another key is none the worse")
}

// TestPanicReachesEveryAsker: whoever waits for a key while it panics gets the panic too.
func TestPanicReachesEveryAsker(t *testing.T) {
	var m memo.Map[int, int]
	var wg sync.WaitGroup
	var caught atomic.Int32
	for range 16 {
		wg.Go(func() {
			defer func() {
				if recover() != nil {
					caught.Add(1)
				}
			}()
			_, _ = m.Get(1, func(int) (int, error) { panic("broken") })
		})
	}
	wg.Wait()
	assert.EqualValues(t, 16, caught.Load())
}

// TestNested: a value may rest on another value of the same map.
func TestNested(t *testing.T) {
	var m memo.Map[int, int]
	var count func(k int) (int, error)
	calls := 0
	count = func(k int) (int, error) {
		calls++
		if k == 0 {
			return 0, nil
		}
		below, err := m.Get(k-1, count)
		return below + 1, err
	}
	v, err := m.Get(4, count)
	require.NoError(t, err)
	assert.Equal(t, 4, v)
	assert.Equal(t, 5, calls)
}
