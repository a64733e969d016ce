package calc

import (
	"slices"

	"thawbook/calc/sensing"
	"thawbook/calc/setpoint"
	"thawbook/calc/slab"
	"thawbook/calc/surface"
	"thawbook/calc/trace"
	"thawbook/calc/units"
	"thawbook/calc/weather"
)

// Constants tells the numbers by which every zone is calculated, each with its source, for the basis of the results.
func Constants() []trace.Step {
	const screen, reference, textbook = "energy-code screen", "engineering method, section 4", "textbook value"
	return slices.Concat(
		[]trace.Step{
			{Symbol: "s_min", Name: "least water of a snowfall hour", Value: weather.SnowHourMM, Quantity: units.WaterDepth, Source: "engineering method, section 1"},
		},
		surface.ConstantSteps(),
		slab.ConstantSteps(),
		[]trace.Step{
			{Symbol: "ρc_slab", Name: "heat that the slab stores", Value: slabHeatJM3K, Quantity: units.HeatCapacity, Source: textbook},
			{Symbol: "λ_bedding", Name: "conductivity of the bedding under pavers and stone", Value: beddingConductivity, Quantity: units.Conductivity, Source: textbook},
			{Symbol: "λ_pipe", Name: "conductivity of a pipe's wall", Value: pipeWallWMK, Quantity: units.Conductivity, Source: textbook},
			{Symbol: "z_sensor", Name: "depth of the slab sensor in concrete", Value: sensorDepthM, Quantity: units.Thickness, Source: practiceSource},
			{Symbol: "Δz_sensor", Name: "the same below a course of pavers, stone or asphalt", Value: sensorSleeveM / 2, Quantity: units.Thickness, Source: "judgement: half a sleeve"},
			{Symbol: "V_min", Name: "least wind of a reset curve", Value: setpoint.MinWind, Quantity: units.Speed, Source: "judgement"},
			{Symbol: "Δt_shock", Name: "greatest usual difference of supply and slab", Value: setpoint.GreatestSupplyLessCoreK, Quantity: units.TemperatureDiff, Source: practiceSource},
			{Symbol: "t_start", Name: "warm-weather shut-off, outdoors", Value: shutOffC, Quantity: units.Temperature, Source: screen},
			{Symbol: "t_pavement", Name: "shut-off above this pavement temperature when nothing falls", Value: sensing.ScreenPavementC, Quantity: units.Temperature, Source: screen},
			{Symbol: "Δt_stop", Name: "the same above the greatest slab set point, where that asks for more", Value: stopAboveSlabK, Quantity: units.TemperatureDiff, Source: "judgement"},
			{Symbol: "t_idle", Name: "idling below this outdoor temperature", Value: idleBelowC, Quantity: units.Temperature, Source: reference},
			{Symbol: "q_floor", Name: "least installed output", Value: installedFloor, Quantity: units.Flux, Source: practiceSource},
			{Symbol: "q_floor", Name: "least installed output, stairs", Value: installedStairs, Quantity: units.Flux, Source: practiceSource},
			{Symbol: "τ_aerial", Name: "off-delay after the last snow that an aerial detector sees", Value: aerialHoldH, Quantity: units.Hours, Source: reference},
			{Symbol: "τ_manual", Name: "off-delay of heat begun by hand", Value: manualHoldH, Quantity: units.Hours, Source: reference},
			{Symbol: "τ_dry", Name: "off-delay after an in-pavement detector is dry", Value: dryHoldH, Quantity: units.Hours, Source: reference},
		},
	)
}
