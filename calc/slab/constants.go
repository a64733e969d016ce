package slab

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// ConstantSteps tells the numbers by which every slab is calculated, each with its source.
func ConstantSteps() []trace.Step {
	const method, judgement = "engineering method, section 2", "judgement"
	return []trace.Step{
		{Symbol: "h_top", Name: "film on the surface, to an environment that keeps its mean at t_f", Value: topFilm, Quantity: units.Coefficient, Source: method},
		{Symbol: "h_soffit", Name: "film under a slab over open air", Value: soffitFilm, Quantity: units.Coefficient, Source: method},
		{Symbol: "h_room", Name: "film under a slab over heated space", Value: roomFilm, Quantity: units.Coefficient, Source: method},
		{Symbol: "λ_ground", Name: "conductivity of the ground", Value: groundWMK, Quantity: units.Conductivity, Source: method},
		{Symbol: "d_ground", Name: "ground below the slab down to a steady temperature", Value: groundM, Quantity: units.Length, Source: method},
		{Symbol: "ψ", Name: "edge loss, bare edge", Value: edgeBare, Quantity: units.LinearCoefficient, Source: judgement},
		{Symbol: "ψ", Name: "edge loss, edge with insulation", Value: edgeInsulated, Quantity: units.LinearCoefficient, Source: judgement},
	}
}
