package weather

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"math"
)

// Place is where a station stands.
type Place struct {
	LatDeg, LonDeg, ElevationM float64
}

// PlaceOf returns where a record was taken.
func PlaceOf(r Record) Place { return Place{r.LatDeg, r.LonDeg, r.ElevationM} }

// KindOf returns what a record's years are.
func KindOf(r Record) Kind {
	if r.Typical {
		return Typical
	}
	return Observed
}

// NewStation returns a station of these years, with the digest of their values. The variation of its snow is known when there are at least three
// winters to tell it from.
func NewStation(name string, place Place, kind Kind, years []Year, sources []Source) Station {
	s := Station{Name: name, LatDeg: place.LatDeg, LonDeg: place.LonDeg, ElevationM: place.ElevationM, Kind: kind, Years: years, Sources: sources}
	s.SnowVariation = variation(s)
	s.Digest = digest(s)
	return s
}

// digest is the sha256 of the station's place, kind and every value of every hour, in one fixed order: equal weather has an equal digest,
// whatever file it came in.
func digest(s Station) string {
	d := digester{hash: sha256.New(), buffer: make([]byte, 0, 1<<14)}
	d.text(string(s.Kind))
	d.floats(s.LatDeg, s.LonDeg, s.ElevationM)
	for i := range s.Years {
		d.text(s.Years[i].Label)
		d.text(string(s.Years[i].SnowRule))
		for k := range s.Years[i].Hours {
			h := &s.Years[i].Hours[k]
			d.buffer = append(d.buffer, byte(h.Month), byte(h.Day), byte(h.Clock))
			d.floats(h.AirC, h.DewC, h.PressurePa, h.WindMS, h.CloudShare, h.InfraredWM2, h.SunWM2, h.SnowMM, h.RainMM)
		}
	}
	d.flush()
	return hex.EncodeToString(d.hash.Sum(nil))
}

type digester struct {
	hash   hash.Hash
	buffer []byte
}

func (d *digester) text(t string) {
	d.buffer = append(binary.LittleEndian.AppendUint32(d.buffer, uint32(len(t))), t...)
}

func (d *digester) floats(values ...float64) {
	for _, v := range values {
		if math.IsNaN(v) {
			v = math.MaxFloat64 // one NaN, whatever its bits
		}
		d.buffer = binary.LittleEndian.AppendUint64(d.buffer, math.Float64bits(v))
	}
	if len(d.buffer) > 1<<14-128 {
		d.flush()
	}
}

func (d *digester) flush() {
	d.hash.Write(d.buffer)
	d.buffer = d.buffer[:0]
}
