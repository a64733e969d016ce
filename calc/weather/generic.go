package weather

import "math"

const (
	genericPersistence = 0.65
	genericWindSpread  = 0.55
)

func genericDayToDayK(meanC float64) float64 { return math.Max(2, 5-0.15*meanC) }

func (s Statistics) generic() (Statistics, error) { return s, nil }
