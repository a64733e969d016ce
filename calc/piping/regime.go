package piping

// Regime is how a fluid moves.
type Regime string

// The regimes.
const (
	Laminar    Regime = "laminar"
	Transition Regime = "transition"
	Turbulent  Regime = "turbulent"
)

// Regime says how the fluid moves in the loops at the design flux.
func (f Flow) Regime() Regime {
	switch {
	case f.Reynolds < laminarBelow:
		return Laminar
	case f.Reynolds < turbulentAbove:
		return Transition
	}
	return Turbulent
}
