package report

import (
	"slices"

	"thawbook/calc/sensing"
)

// Begins returns the code of the sentence that tells what begins heat: a person, or what the kit's detectors see.
func Begins(c sensing.Choice) string {
	pavement, aerial := slices.Contains(c.Kit, sensing.PavementDetector), slices.Contains(c.Kit, sensing.AerialDetector)
	switch {
	case c.Start == sensing.StartManual:
		return "begins-manual"
	case pavement && aerial:
		return "begins-either"
	case aerial:
		return "begins-aerial"
	}
	return "begins-pavement"
}

// Ends returns the code of the sentence that tells what ends heat.
func Ends(c sensing.Choice) string {
	if c.Stop == sensing.StopDry && slices.Contains(c.Kit, sensing.AerialDetector) {
		return "ends-both"
	}
	return "ends-" + c.Stop
}

// Limits returns the code of the sentence that tells what limits the slab.
func Limits(c sensing.Choice) string {
	switch {
	case c.OutdoorReset && c.Idling:
		return "limits-reset-idling"
	case c.OutdoorReset:
		return "limits-reset"
	}
	return "limits-nothing"
}
