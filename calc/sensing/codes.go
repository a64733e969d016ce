package sensing

// Codes of reasons that no table names: numbers, places, the section, parts.
const (
	codeHousingOnly           = "only-where-cast-in"
	codeThere                 = "there-today"
	codeSeveral               = "several-detectors"
	codePartsOrder            = "parts-order"
	codeSensesNotSlab         = "part-without-slab-temperature"
	codeSensesOther           = "part-senses-other"
	codeTakesNot              = "part-does-not-take"
	codeCanNot                = "part-lacks-function"
	codeSwitchesNot           = "part-switches-other"
	codeLeadShort             = "part-lead-short"
	codeLeadNotTold           = "part-lead-not-told"
	codeNoPrice               = "part-without-price"
	codeDearer                = "part-costs-more"
	codeLaterRow              = "part-listed-later"
	codeNoneListed            = "missing-kind"
	codeNoneFits              = "missing-fitting"
	codeOutputsUntold         = "verify-outputs"
	codeManyInputs            = "verify-several-inputs"
	codeOldDevice             = "verify-old-device"
	planAsCastIn              = "plan-as-cast-in"
	planBesideStalls          = "plan-beside-stalls"
	planBetweenWheels         = "plan-between-wheels"
	planInShade               = "plan-in-shade"
	planInsideEdge            = "plan-inside-edge"
	planLastToDry             = "plan-last-to-dry"
	planLowEnd                = "plan-low-end"
	planOnLanding             = "plan-on-landing"
	planOnMast                = "plan-on-mast"
	planOnRoofEdge            = "plan-on-roof-edge"
	planOtherSide             = "plan-other-side"
	planOwnPart               = "plan-own-part"
	planSensorApart           = "plan-sensor-apart"
	planSensorAsFound         = "plan-sensor-as-found"
	planSensorInTread         = "plan-sensor-in-tread"
	planSensorMidway          = "plan-sensor-midway"
	planSensorSpare           = "plan-sensor-spare"
	planSnowComesIn           = "plan-snow-comes-in"
	planSunNotTold            = "plan-sun-not-told"
	planSunnedPart            = "plan-sunned-part"
	sectionDrainAboveMembrane = "section-drain-above-membrane"
	sectionDrainAsFound       = "section-drain-as-found"
	sectionDrainOverlay       = "section-drain-overlay"
	sectionDrainThrough       = "section-drain-through"
	sectionFlushLevel         = "section-flush-level"
	sectionFlushOnSlope       = "section-flush-on-slope"
	sectionMount              = "section-mount"
	sectionOnGravel           = "section-on-gravel"
	sectionSensor             = "section-sensor"
	sectionSensorAsFound      = "section-sensor-as-found"
	sectionSensorInTread      = "section-sensor-in-tread"
	sectionSensorUnderAsphalt = "section-sensor-under-asphalt"
	sectionSensorUnderCourse  = "section-sensor-under-course"
)

// Codes returns the codes of all reasons that are said without a row of a table; each has a sentence.
func Codes() []string {
	return []string{
		codeHousingOnly,
		codeThere,
		codeSeveral,
		codePartsOrder,
		codeSensesNotSlab,
		codeSensesOther,
		codeTakesNot,
		codeCanNot,
		codeSwitchesNot,
		codeLeadShort,
		codeLeadNotTold,
		codeNoPrice,
		codeDearer,
		codeLaterRow,
		codeNoneListed,
		codeNoneFits,
		codeOutputsUntold,
		codeManyInputs,
		codeOldDevice,
		planAsCastIn,
		planBesideStalls,
		planBetweenWheels,
		planInShade,
		planInsideEdge,
		planLastToDry,
		planLowEnd,
		planOnLanding,
		planOnMast,
		planOnRoofEdge,
		planOtherSide,
		planOwnPart,
		planSensorApart,
		planSensorAsFound,
		planSensorInTread,
		planSensorMidway,
		planSensorSpare,
		planSnowComesIn,
		planSunNotTold,
		planSunnedPart,
		sectionDrainAboveMembrane,
		sectionDrainAsFound,
		sectionDrainOverlay,
		sectionDrainThrough,
		sectionFlushLevel,
		sectionFlushOnSlope,
		sectionMount,
		sectionOnGravel,
		sectionSensor,
		sectionSensorAsFound,
		sectionSensorInTread,
		sectionSensorUnderAsphalt,
		sectionSensorUnderCourse,
	}
}
