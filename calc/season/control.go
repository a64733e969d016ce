package season

// sense is what begins heat; the same sense also ends it.
type sense uint8

const (
	byDate        sense = 1 << iota // begins and ends with the season
	byOperator                      // begins late, ends on the manual timer
	byFallingSnow                   // begins with the first hour seen, ends on the timer after the last
	byMoisture                      // begins on a wet and cold pavement, ends when dry, after the off-delay
)

// control is a strategy as a row: what begins and ends heat, what limits the slab, and whether it idles. With two senses either begins and both
// must be satisfied to end.
type control struct {
	strategy Strategy
	by       sense
	limited  bool // by the outdoor reset at the slab sensor; else the whole installed output runs
	idles    bool
}

// controls are the strategies in the order of Strategies.
var controls = [len(Strategies)]control{
	{strategy: Unheated},
	{strategy: AlwaysOn, by: byDate, limited: true},
	{strategy: Manual, by: byOperator},
	{strategy: ManualSlab, by: byOperator, limited: true},
	{strategy: Aerial, by: byFallingSnow},
	{strategy: AerialSlab, by: byFallingSnow, limited: true},
	{strategy: AerialSlabIdling, by: byFallingSnow, limited: true, idles: true},
	{strategy: Pavement, by: byMoisture, limited: true},
	{strategy: PavementIdling, by: byMoisture, limited: true, idles: true},
	{strategy: BothDetectors, by: byFallingSnow | byMoisture, limited: true},
	{strategy: BothDetectorsIdling, by: byFallingSnow | byMoisture, limited: true, idles: true},
}

// mode is what a strategy does in an hour.
type mode uint8

const (
	off mode = iota
	idling
	melting
	drying
	modes
)

const (
	operatorLateH = 3    // h from the first hour of snow to the operator's start; engineering method, section 4
	filmMM        = 0.3  // mm of water that stays when melt water has drained; engineering method, section 4
	wetMM         = 0.05 // mm of snow or water on the pavement that its detector senses; engineering method, section 4
	dryMM         = 0.02 // mm of snow or water below which it senses dry; engineering method, section 4
	coverMM       = 1    // mm of snow water that hide the pavement; engineering method, section 4
	unheatedFilm  = 25.0 // W/(m²·K) from the air to snow on a slab that is not heated: the top film of the slab, engineering method, section 2
)

// timers are what a strategy without a detector in the pavement carries from one hour to the next.
type timers struct {
	waitH   float64 // until the operator comes
	manualH float64 // left on the manual timer
	manual  bool    // the manual timer runs
	aerialH float64 // left on the timer after the last snow seen
}

// state is what a strategy carries from one hour to the next.
type state struct {
	timers
	call    mode    // of the hour before: melting or drying when heat was called for, else off
	mode    mode    // of the hour before
	wet     bool    // the in-pavement detector senses moisture
	dryH    float64 // left of the off-delay after dry
	filmMM  float64 // water on the pavement
	lyingMM float64 // snow on the pavement, as water
}

// called returns melting or drying when the strategy's senses call for heat in this hour, else off. Part of an hour on a timer counts as a whole one.
func (s *state) called(by sense, in *Input, h *forcing) mode {
	m := off
	if by&byMoisture != 0 {
		m = s.moisture(in.DryHoldH, h)
	}
	if s.timed(by, in, h.seen) {
		m = melting
	}
	return m
}

// timed says whether the date, a timer or the operator calls for heat in this hour.
func (s *timers) timed(by sense, in *Input, seen bool) bool {
	return by&byFallingSnow != 0 && s.falling(in.AerialHoldH, seen) || by&byOperator != 0 && s.operator(in.ManualHoldH, seen) || by&byDate != 0
}

// falling says whether the aerial detector calls: snow is seen, or the timer after the last snow seen still runs.
func (s *timers) falling(holdH float64, seen bool) bool {
	if seen {
		s.aerialH = holdH
		return true
	}
	if s.aerialH <= 0 {
		return false
	}
	s.aerialH--
	return true
}

// operator says whether a person has heat on: started late, until the timer ends; whoever comes to an ended timer while snow falls renews it.
func (s *timers) operator(holdH float64, seen bool) bool {
	if s.manual && s.manualH <= 0 {
		s.manual, s.manualH = seen, holdH
	}
	if !s.manual && s.waitH > 0 {
		s.waitH--
		s.manual, s.manualH = s.waitH <= 0, holdH
	} else if !s.manual && seen {
		s.waitH = operatorLateH
	}
	if s.manual {
		s.manualH--
	}
	return s.manual
}

// moisture returns what the in-pavement detector calls for: melting while the pavement is wet, drying in the off-delay after it.
func (s *state) moisture(holdH float64, h *forcing) mode {
	if h.warm {
		s.wet, s.filmMM = false, 0
	}
	if h.moist || s.lyingMM > wetMM {
		s.wet = true
	}
	if s.wet {
		s.filmMM = min(filmMM, s.filmMM+h.snowMM+h.rainMM)
	}
	if s.wet && !h.moist && s.filmMM < dryMM && s.lyingMM < dryMM {
		s.wet, s.dryH = false, holdH
	}
	if s.wet {
		return melting
	}
	if s.dryH <= 0 {
		return off
	}
	s.dryH--
	return drying
}

// allowed turns a call into what is done: no heat in warm weather, no melting below the lockout, idling where the strategy can.
func allowed(call mode, idles bool, h *forcing) mode {
	switch {
	case h.warm:
		return off
	case call != off && !h.locked:
		return call
	case idles && h.cold:
		return idling
	}
	return off
}

// heat returns the upward heat of the hour in W/m² and lets it melt the snow and dry the film that lie on the pavement.
func (s *state) heat(m mode, begins, limited bool, p *plant, h *forcing) float64 {
	cover := min(1, s.lyingMM/coverMM)
	loss := h.wetLoss * (1 - cover)
	snow := h.snowHeat + p.meltHeat*s.lyingMM
	lying := s.lyingMM + h.snowMM
	up := 0.0
	switch {
	case m == off:
		s.lyingMM = max(0, lying-unheatedFilm*max(0, h.airC)/p.meltHeat)
		return 0
	case m == idling:
		up = min(h.idle, p.up)
	case !limited || begins:
		up = p.up
	case lying > 0:
		up = max(0, min(loss+snow, h.wetLimit, p.up))
	default:
		up = min(h.melt, p.up)
	}
	if begins {
		s.lyingMM = lying // this hour's heat warms the slab
		return up
	}
	if lying > 0 {
		s.lyingMM = lying * (1 - max(0, min(1, (up-loss)/snow)))
	}
	if m != idling && h.snowMM+h.rainMM == 0 {
		s.filmMM = max(0, s.filmMM-h.evaporates)
	}
	return up
}
