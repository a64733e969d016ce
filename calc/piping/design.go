package piping

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"thawbook/calc/units"
)

// ErrInput says that a layout can't be made as it is asked for.
var ErrInput = errors.New("piping")

const (
	leaderM     = 7.62 // m, both ways of a loop: the model mechanical code's lengths with leaders less those without, 25 ft; read
	leaderShare = 0.25 // of a given loop length, which an assumed leader does not exceed; judgement
	mainsM      = 15.0 // m one way; judgement, as the distance to the panel
	loopMostPa  = 50e3 // Pa in the pipe of one loop, above which more loops are proposed; judgement
	bendShare   = 0.10 // of the straight pipe, for bends; judgement
	manifoldPa  = 10e3 // Pa, manifold with valves and flow meter; judgement
	sourcePa    = 20e3 // Pa, exchanger or boiler; judgement
	mainsPaM    = 250. // Pa/m in mains, 100 to 400 usual; judgement
	mainsParts  = 1.5  // length with fittings over straight length of mains; judgement
	mainsMS     = 1.0  // m/s in mains, for their volume; judgement
	pumpShare   = 0.35 // pump power to the water over power at the wire; judgement for small circulators, 0.25 to 0.5
	fillC       = 10.0 // °C of the fluid as it is filled; judgement
	mostLoops   = 16   // times the least count that a search for the loop's head tries
)

// Design returns the layout of a zone's piping.
//
//	L_heated = A / s; n = L_heated / (L_max − leader), rounded up; L_loop = L_heated / n + leader
//	q_V = Q / (n ρ c_p ΔT), Q = q A + Q_edge, q the installed output, at least q_up + q_back
//	t_mean = t_pipe + (q_up + q_back + Q_edge/A)(R_wall + R_film), R_wall = s ln(D/d) / (2 π λ_wall), R_film = s / (π d h), h = Nu k / d
//	t_supply, t_return = t_mean ± ΔT/2 · ((q_up + q_back) A + Q_edge) / Q
//	Δp = f L_loop/d ρ v²/2 · 1.1 + manifold + mains + source; P = q_V Δp / 0.35
//
//	A       area              [m²]     above 0
//	s       spacing           [m]      above D
//	D, d    outer diameter and bore [m]; bore LeastBoreM … MostBoreM
//	ΔT      supply less return [K]     1 … 40
//	t_pipe  outer surface of the pipe  [°C]  −40 … 100
//
// The fluid's properties are those at t_mean, which is searched for. Without a loop length, loops are added until the straight pipe of one loses at most
// 50 kPa. A given length is kept as nearly as a whole number of equal loops allows. Without a concentration the least is proposed whose freezing point
// lies 5 K under the extreme minimum.
//
// Source: loop lengths by model mechanical code; heat and flow by Gnielinski, Churchill, Darcy and Weisbach; properties by Melinder 2010.
// Errors: ErrInput where a value makes no sense; ErrFluid where the mixture is not covered.
func Design(in Input) (Layout, error) {
	if err := in.check(); err != nil {
		return Layout{}, err
	}
	l := Layout{Input: in}
	mix, err := l.concentrate()
	if err != nil {
		return Layout{}, err
	}
	if err := l.divide(mix); err != nil {
		return Layout{}, err
	}
	l.lift(mix)
	l.hold(mix)
	l.judge()
	return l, nil
}

func (in Input) check() error {
	bore := in.OuterM - 2*in.WallM
	heat := in.designHeatW()
	switch {
	case !(in.AreaM2 > 0 && in.AreaM2 <= 1e6):
		return fmt.Errorf("%w: area of %g m²", ErrInput, in.AreaM2)
	case !(in.WallM > 0 && in.WallWMK > 0 && bore >= LeastBoreM && bore <= MostBoreM):
		return fmt.Errorf("%w: pipe of %g m with a wall of %g m and %g W/m·K", ErrInput, in.OuterM, in.WallM, in.WallWMK)
	case !(in.SpacingM > in.OuterM && in.SpacingM <= 1):
		return fmt.Errorf("%w: spacing %g m of pipes of %g m", ErrInput, in.SpacingM, in.OuterM)
	case !(in.UpWM2 >= 0 && in.UpWM2 <= 5000 && heat > 0 && heat <= 1e10):
		return fmt.Errorf("%w: %g W/m² up and %g W of heat", ErrInput, in.UpWM2, heat)
	case !(in.CarryWM2 >= 0 && in.CarryWM2 <= 10000):
		return fmt.Errorf("%w: loops for %g W/m²", ErrInput, in.CarryWM2)
	case !(in.DropK >= 1 && in.DropK <= 40):
		return fmt.Errorf("%w: temperature drop of %g K", ErrInput, in.DropK)
	case !(in.PipeSurfaceC >= -40 && in.PipeSurfaceC <= 200):
		return fmt.Errorf("%w: pipe surface of %g °C", ErrInput, in.PipeSurfaceC)
	case in.LeaderM.Known && !(in.LeaderM.Value >= 0 && in.LeaderM.Value < in.LoopLengthM.Or(math.Inf(1))):
		return fmt.Errorf("%w: leaders of %g m", ErrInput, in.LeaderM.Value)
	case in.LoopLengthM.Known && !(in.LoopLengthM.Value > 0), in.MainsM.Known && !(in.MainsM.Value >= 0):
		return fmt.Errorf("%w: loop of %g m, mains of %g m", ErrInput, in.LoopLengthM.Value, in.MainsM.Value)
	}
	return nil
}

// concentrate settles the concentration.
func (l *Layout) concentrate() (Mixture, error) {
	in, c := l.Input, &l.Fluid
	if in.ExtremeMinC.Known {
		c.NeedC = units.Some(in.ExtremeMinC.Value - freezeMarginK)
	}
	c.Share, c.Proposed = in.Share.Or(withoutMinimum), !in.Share.Known
	if c.Proposed && c.NeedC.Known {
		share, _, err := Propose(in.Fluid, c.NeedC.Value)
		if err != nil {
			return Mixture{}, err
		}
		c.Share = share
	}
	mix, err := byVolumeOf(in.Fluid, c.Share)
	if err != nil {
		return Mixture{}, err
	}
	c.MassShare, c.FreezeC = mix.MassShare, mix.FreezeC
	if in.ExtremeMinC.Known {
		c.MarginK = units.Some(in.ExtremeMinC.Value - c.FreezeC)
	}
	if in.Fluid == PropyleneGlycol && c.Share >= burstLeastShare {
		c.BurstC = units.Some(min(burstC, c.FreezeC))
	}
	return mix, nil
}

// divide settles the loops and what flows in each.
func (l *Layout) divide(mix Mixture) error {
	in, p := l.Input, &l.Loops
	p.BoreM = in.OuterM - 2*in.WallM
	p.HeatedM = in.AreaM2 / in.SpacingM
	p.LongestM = LongestLoop(p.BoreM)
	p.LeaderM = in.LeaderM.Or(leaderM)
	if in.LoopLengthM.Known {
		if !in.LeaderM.Known {
			p.LeaderM = min(p.LeaderM, leaderShare*in.LoopLengthM.Value)
		}
		l.run(mix, max(1, int(math.Round(p.HeatedM/(in.LoopLengthM.Value-p.LeaderM)))))
		return nil
	}
	if p.LeaderM >= p.LongestM {
		return fmt.Errorf("%w: leaders of %g m in loops of at most %g m", ErrInput, p.LeaderM, p.LongestM)
	}
	least := int(math.Ceil(p.HeatedM / (p.LongestM - p.LeaderM)))
	if l.run(mix, least); l.Head.LoopPa > loopMostPa {
		l.shorten(mix, least)
	}
	return nil
}

// shorten adds loops until the pipe of one loses little enough: fewer metres and less flow in each, so the loss falls with every loop.
func (l *Layout) shorten(mix Mixture, least int) {
	more := sort.Search((mostLoops-1)*least, func(i int) bool {
		l.run(mix, least+i)
		return l.Head.LoopPa <= loopMostPa
	})
	l.run(mix, least+more)
	l.Flow.SearchedLoops = true
}

// run settles the loops, temperatures, flow and friction for a number of loops.
func (l *Layout) run(mix Mixture, loops int) {
	in, p, f := l.Input, &l.Loops, &l.Flow
	p.Count = loops
	p.LengthM = p.HeatedM/float64(loops) + p.LeaderM
	p.TotalM = p.LengthM * float64(loops)
	f.DesignHeatW, f.HeatW = in.designHeatW(), max(in.CarryWM2, in.UpWM2+in.BackWM2)*in.AreaM2+in.EdgeW
	f.DesignDropK = in.DropK * f.DesignHeatW / f.HeatW
	f.LoopHeatW = f.HeatW / float64(loops)
	f.WallM2KW = in.SpacingM * math.Log(in.OuterM/p.BoreM) / (2 * math.Pi * in.WallWMK)
	f.MeanC = l.meanC(mix)
	f.SupplyC, f.ReturnC = f.MeanC+f.DesignDropK/2, f.MeanC-f.DesignDropK/2
	f.Friction = Friction(f.Reynolds, roughnessM/p.BoreM)
	l.Head.LoopPa = Drop(f.Friction, p.LengthM, p.BoreM, f.DensityKgM3, f.SpeedMS)
}

// designHeatW is the heat at the fluxes, through the edge too.
func (in Input) designHeatW() float64 { return (in.UpWM2+in.BackWM2)*in.AreaM2 + in.EdgeW }

// meanC finds the mean fluid temperature, at which the fluid's properties give the film that leads to it, in °C. A colder fluid is thicker, so its film
// resists more: what comes out falls as the guess rises, and there is one answer between the bounds. It is closed in on by false position, where an end
// that stays put loses half its weight.
func (l *Layout) meanC(mix Mixture) float64 {
	in := l.Input
	through := in.designHeatW() / in.AreaM2
	base := in.PipeSurfaceC + through*l.Flow.WallM2KW
	off := func(guess float64) float64 { return base + through*l.film(mix, guess) - guess }
	low, high := base, base+through*in.SpacingM/(math.Pi*laminarNusselt*leastFluidWMK)
	offLow, offHigh := off(low), off(high)
	guess := low
	for range mostGuesses {
		if high == low || offHigh == offLow {
			break
		}
		guess = high - offHigh*(high-low)/(offHigh-offLow)
		o := off(guess)
		if math.Abs(o) < nearK {
			break
		}
		if o*offHigh < 0 {
			low, offLow = high, offHigh
		} else {
			offLow /= 2
		}
		high, offHigh = guess, o
	}
	return base + through*l.film(mix, guess)
}

const (
	mostGuesses   = 60   // five to twelve are needed
	nearK         = 1e-9 // K, below any printed digit
	leastFluidWMK = 0.2  // less than any mixture conducts
)

// film settles flow and film at a fluid temperature and returns the film's resistance per area of pavement in m²·K/W.
func (l *Layout) film(mix Mixture, atC float64) float64 {
	in, p, f := l.Input, &l.Loops, &l.Flow
	f.DensityKgM3, f.HeatJKgK, f.FluidWMK = mix.Density(atC), mix.SpecificHeat(atC), mix.Conductivity(atC)
	dynamic := mix.Viscosity(atC)
	f.KinematicM2S = dynamic / f.DensityKgM3
	f.Prandtl = dynamic * f.HeatJKgK / f.FluidWMK
	f.LoopLS = f.LoopHeatW / (f.DensityKgM3 * f.HeatJKgK * in.DropK) * litres
	f.TotalLS = f.LoopLS * float64(p.Count)
	f.SpeedMS = f.LoopLS / litres / boreArea(p.BoreM)
	f.Reynolds = f.SpeedMS * p.BoreM / f.KinematicM2S
	f.Nusselt = Nusselt(f.Reynolds, f.Prandtl)
	f.FilmWM2K = f.Nusselt * f.FluidWMK / p.BoreM
	f.FilmM2KW = in.SpacingM / (math.Pi * p.BoreM * f.FilmWM2K)
	return f.FilmM2KW
}

// lift adds up the head at the design flow.
func (l *Layout) lift(mix Mixture) {
	in, h, f := l.Input, &l.Head, l.Flow
	h.ManifoldPa, h.SourcePa = manifoldPa, sourcePa
	h.MainsPa = 2 * in.MainsM.Or(mainsM) * mainsParts * mainsPaM
	h.BendsPa = bendShare * h.LoopPa
	h.TotalPa = h.LoopPa + h.BendsPa + h.ManifoldPa + h.MainsPa + h.SourcePa
	h.PumpW = f.TotalLS / litres * h.TotalPa / pumpShare
	if in.ExtremeMinC.Known {
		l.start(mix, max(in.ExtremeMinC.Value, l.Fluid.FreezeC))
	}
}

// start finds what the pump meets when the fluid is as cold as it can be: the head of the design flow, and the flow that the design head still moves.
func (l *Layout) start(mix Mixture, coldC float64) {
	h, p := &l.Head, l.Loops
	density, dynamic := mix.Density(coldC), mix.Viscosity(coldC)
	re := l.Flow.SpeedMS * p.BoreM * density / dynamic
	head := func(share float64) float64 {
		pipe := Drop(Friction(share*re, roughnessM/p.BoreM), p.LengthM, p.BoreM, density, share*l.Flow.SpeedMS)
		return pipe*(1+bendShare) + share*share*(h.ManifoldPa+h.MainsPa+h.SourcePa)
	}
	h.ColdC, h.ColdReynolds, h.ColdPa = units.Some(coldC), units.Some(re), units.Some(head(1))
	low, high := 0.0, 1.0
	for range shareHalvings {
		if middle := (low + high) / 2; head(middle) < h.TotalPa {
			low = middle
		} else {
			high = middle
		}
	}
	h.ColdShare = units.Some(high)
}

const shareHalvings = 30 // of the design flow: below any printed digit

// hold finds how much fluid there is and how much it grows.
func (l *Layout) hold(mix Mixture) {
	in, v := l.Input, &l.Volume
	v.LoopsL = l.Loops.TotalM * boreArea(l.Loops.BoreM) * litres
	v.MainsL = 2 * in.MainsM.Or(mainsM) * l.Flow.TotalLS / mainsMS
	v.TotalL = v.LoopsL + v.MainsL
	v.GlycolL = l.Fluid.Share * v.TotalL
	v.HotC = max(l.Flow.SupplyC, in.SupplyLimitC.Or(l.Flow.SupplyC))
	v.ExpansionL = v.TotalL * (mix.Density(fillC)/mix.Density(v.HotC) - 1)
	if l.Head.ColdC.Known {
		v.ContractionL = units.Some(v.TotalL * (1 - mix.Density(fillC)/mix.Density(l.Head.ColdC.Value)))
	}
}
