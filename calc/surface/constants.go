package surface

import (
	"thawbook/calc/trace"
	"thawbook/calc/units"
)

// ConstantSteps tells the numbers by which every load is calculated, each with its source.
func ConstantSteps() []trace.Step {
	const handbook, tables = "ASHRAE Handbook, HVAC Applications (2015) ch. 51", "steam and ice tables at 0 °C"
	k := method()
	return []trace.Step{
		{Symbol: "t_f", Name: "liquid film on the surface", Value: k.FilmC, Quantity: units.Temperature, Source: handbook + ": 33 °F"},
		{Symbol: "t_m", Name: "melting", Value: k.MeltC, Quantity: units.Temperature, Source: "by definition"},
		{Symbol: "ε", Name: "emissivity of the wet surface", Value: k.Emissivity, Quantity: units.Emissivity, Source: handbook},
		{Symbol: "c_ice", Name: "specific heat of ice", Value: k.IceHeat, Quantity: units.SpecificHeat, Source: tables},
		{Symbol: "c_w", Name: "specific heat of water", Value: k.WaterHeat, Quantity: units.SpecificHeat, Source: tables},
		{Symbol: "h_if", Name: "heat of fusion", Value: k.Fusion, Quantity: units.Latent, Source: handbook},
		{Symbol: "h_fg", Name: "heat of vaporisation at the film's temperature", Value: k.Vaporisation, Quantity: units.Latent, Source: "steam tables at 0.56 °C"},
		{Symbol: "ρ_w", Name: "density of water", Value: k.WaterDensity, Quantity: units.Density, Source: handbook},
		{Symbol: "c_p", Name: "specific heat of air", Value: k.AirHeat, Quantity: units.SpecificHeat, Source: handbook},
		{Symbol: "Pr", Name: "Prandtl number of air", Value: k.Prandtl, Quantity: units.Number, Source: handbook},
		{Symbol: "Sc", Name: "Schmidt number of vapour in air", Value: k.Schmidt, Quantity: units.Number, Source: handbook},
		{Symbol: "f_st", Name: "factor for stairs whose risers are not in the area", Value: stairsFactor, Quantity: units.Factor, Source: "trade guide"},
	}
}
