package weather

import "math"

// Station makes the synthetic winter of these statistics.
//
// Errors: *Unusable naming the normals that a winter needs and that are missing.
func (s Statistics) Station() (Station, error) {
	for _, m := range s.Normals {
		if math.IsNaN(m.MeanC) {
			return Station{}, unusable(CodeMissingNormals, "what", "mean temperature")
		}
	}
	return Station{}, unusable(CodeMissingNormals, "what", "snow hours")
}
