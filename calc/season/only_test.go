package season

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOnlyIsTheSame: a strategy that runs alone beside unheated pavement has the winters that it has among all, to the bit.
func TestOnlyIsTheSame(t *testing.T) {
	st, in := made(), described()
	all, err := Run(in, st)
	require.NoError(t, err)
	for i, s := range Strategies {
		in.Only = s
		some, err := Run(in, st)
		require.NoError(t, err)
		if i == 0 {
			assert.Len(t, some, len(Strategies), "unheated alone is no choice of a control")
			continue
		}
		require.Len(t, some, 2)
		assert.Equal(t, Unheated, some[0].Strategy)
		got, want := some[1], all[i]
		got.Input.Only = ""
		got.Ground.TimerH, got.Ground.OffDelayH = want.Ground.TimerH, want.Ground.OffDelayH // recommended from all strategies
		assert.Equal(t, want, got, s)
	}
}
