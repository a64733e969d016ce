package setpoint

// PointAt returns the curve at any outdoor temperature, in °C, for tables with steps of their own. See Reset.
//
//	outdoorC  −60 … 30 °C
func (c Curve) PointAt(outdoorC float64) Point { return c.point(outdoorC) }
