package weather

import "math"

// estimateSky gives cloud and sun where the source has none. Cloud: a straight line over gaps; where no hour has any, 0.9 while it snows or rains
// and half the sky else (judgement). Sun: SunEstimate.
func estimateSky(latDeg, lonDeg, zoneHours float64, y *Year) {
	fillCloud(y)
	if !y.lacks(func(h *Hour) float64 { return h.SunWM2 }, 1) {
		return
	}
	y.Assumed = append(y.Assumed, AssumedSun)
	for i := range y.Hours {
		h := &y.Hours[i]
		if math.IsNaN(h.SunWM2) {
			h.SunWM2 = SunEstimate(*h, latDeg, lonDeg, zoneHours)
		}
	}
}

// lacks says whether at least so many hours have no value.
func (y *Year) lacks(value func(*Hour) float64, least int) bool {
	n := 0
	for i := range y.Hours {
		if math.IsNaN(value(&y.Hours[i])) {
			n++
		}
	}
	return n >= least
}

const (
	cloudWet = 0.9 // while it snows or rains
	cloudDry = 0.5
)

func fillCloud(y *Year) {
	cloud := func(h *Hour) float64 { return h.CloudShare }
	if !y.lacks(cloud, 1) {
		return
	}
	if y.lacks(cloud, len(y.Hours)) {
		y.Assumed = append(y.Assumed, AssumedCloud)
	}
	last, left := math.NaN(), 0
	for i := range y.Hours {
		h := &y.Hours[i]
		if !math.IsNaN(h.CloudShare) {
			last, left = h.CloudShare, 6
			continue
		}
		switch {
		case left > 0: // a short gap holds the cloud before it
			h.CloudShare = last
			left--
		case h.SnowMM > 0 || h.RainMM > 0:
			h.CloudShare = cloudWet
		default:
			h.CloudShare = cloudDry
		}
	}
}

// SunEstimate returns the global horizontal sun of an hour from its date and cloud, in W/m².
//
//	G = 1098 sin h exp(−0.057/sin h) (1 − 0.75 n^3.4)
//
//	h  height of the sun at the middle of the hour
//	n  cloud share                                  0 … 1
//
// Source: clear sky of Haurwitz 1945 (J. Meteorol. 2) and cloud factor of Kasten and Czeplak 1980 (Solar Energy 24), from memory; declination by
// the usual cosine of the day.
func SunEstimate(h Hour, latDeg, lonDeg, zoneHours float64) float64 {
	day := float64(hourOfYear(h.Month, min(h.Day, int8(monthDays[h.Month])), 12, false)/24 + 1)
	decl := -23.44 * math.Pi / 180 * math.Cos(2*math.Pi*(day+10)/365)
	solar := float64(h.Clock) + 0.5 + lonDeg/15 - zoneHours
	angle := (solar - 12) * math.Pi / 12
	lat := latDeg * math.Pi / 180
	sin := math.Sin(lat)*math.Sin(decl) + math.Cos(lat)*math.Cos(decl)*math.Cos(angle)
	if !(sin > 0.01) {
		return 0
	}
	n := math.Max(0, math.Min(1, h.CloudShare))
	return 1098 * sin * math.Exp(-0.057/sin) * (1 - 0.75*math.Pow(n, 3.4))
}
