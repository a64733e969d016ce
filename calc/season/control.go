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

// by returns what begins a strategy's heat.
func (s Strategy) by() sense { return s.control().by }

func (s Strategy) idles() bool { return s.control().idles }

// control returns the strategy's row; that of unheated pavement for a word that is none.
func (s Strategy) control() control {
	for _, c := range controls {
		if c.strategy == s {
			return c
		}
	}
	return controls[0]
}

// SeesSnow says whether an aerial detector begins heat, and a timer after the last snow seen ends it.
func (s Strategy) SeesSnow() bool { return s.by()&byFallingSnow != 0 }

// SensesMoisture says whether a detector in the pavement begins heat, and its off-delay after dry ends it.
func (s Strategy) SensesMoisture() bool { return s.by()&byMoisture != 0 }

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
)

// timers are what a strategy without a detector in the pavement carries from one hour to the next.
type timers struct {
	waitH   float64 // until the operator comes
	manualH float64 // left on the manual timer
	manual  bool    // the manual timer runs
	aerialH float64 // left on the timer after the last snow seen
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
