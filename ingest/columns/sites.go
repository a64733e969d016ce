package columns

import (
	"thawbook/calc"
	"thawbook/calc/units"
)

// Sites returns the columns of Sites in the order of the starter workbook. A row is a zone.
func Sites() []Column[calc.Zone] {
	var all []Column[calc.Zone]
	for _, g := range []struct {
		name string
		list []Column[calc.Zone]
	}{
		{"identity", identity()}, {"place", place()}, {"area", area()}, {"service", service()}, {"slab", slab()},
		{"heat", heat()}, {"sensing", sensors()}, {"siting", siting()}, {"money", money()},
	} {
		for _, c := range g.list {
			c.Group = g.name
			all = append(all, c)
		}
	}
	return sheetOf(SheetSites, all)
}

func identity() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "site_id", Heading: "Site ID", Aliases: []string{"Site", "Site no", "Site number", "Site code"}, Required: true,
			Help: "Your own short name of the site. Rows that share it make one submittal.",
			At:   func(z *calc.Zone) any { return &z.Ref.SiteID }},
		{Field: "site_name", Bookkeeping: true, Heading: "Site name", Aliases: []string{"Property", "Property name"}, Help: "What people call the site.",
			At: func(z *calc.Zone) any { return &z.Ref.SiteName }},
		{Field: "zone_id", Heading: "Zone ID", Aliases: []string{"Area ID", "Zone", "Zone no"},
			Help: "One piece of heated pavement that starts and stops together. Blank: 1, 2, 3 by row within the site.",
			At:   func(z *calc.Zone) any { return &z.Ref.ZoneID }},
		{Field: "zone_name", Bookkeeping: true, Heading: "Zone name", Aliases: []string{"Area name"}, Help: "What people call this piece of pavement.",
			At: func(z *calc.Zone) any { return &z.Ref.ZoneName }},
		{Field: "address", Bookkeeping: true, Heading: "Address", Help: "Printed as it stands. It never decides the climate.",
			At: func(z *calc.Zone) any { return &z.Ref.Address }},
		{Field: "region", Bookkeeping: true, Heading: "Region", Help: "Sites are added up by region.", At: func(z *calc.Zone) any { return &z.Ref.Region }},
		{Field: "owner", Bookkeeping: true, Heading: "Owner", Help: "Printed on the submittal.", At: func(z *calc.Zone) any { return &z.Ref.Owner }},
		{Field: "notes", Bookkeeping: true, Heading: "Notes", Aliases: []string{"Note", "Remarks", "Comments"}, Help: "Printed as it stands.",
			At: func(z *calc.Zone) any { return &z.Ref.Notes }},
		{Field: "include", Heading: "Include", Choices: []string{"yes", "later", "no"},
			Synonyms: map[string]string{"y": "yes", "n": "no", "true": "yes", "false": "no", "1": "yes", "0": "no", "x": "yes"}, Default: "yes",
			Help: "Zones marked later or no are listed and not calculated.",
			At:   func(z *calc.Zone) any { return &z.Ref.Include }},
		{Field: "issued_for", Bookkeeping: true, Heading: "Issued for", Choices: []string{"preliminary", "review", "construction", "record"},
			Help: "Printed on the submittal.", At: func(z *calc.Zone) any { return &z.Ref.IssuedFor }},
	}
}

func place() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "station", Heading: "Station", Aliases: []string{"Weather station", "Climate station"},
			Help: "A row of Climate, or a built-in station. Blank with Latitude and Longitude: the nearest built-in station within 80 km (50 mi) and 300 m (984 ft) of height, with a warning.",
			At:   func(z *calc.Zone) any { return &z.Place.Station }},
		{Field: "latitude", Heading: "Latitude", Aliases: []string{"Lat"}, Quantity: units.Angle, Min: -90, Max: 90, Directions: "NS", Help: "Degrees, north is positive: 42.36, 42.36 N or 42°21'N.",
			At: func(z *calc.Zone) any { return &z.Place.LatitudeDeg }},
		{Field: "longitude", Heading: "Longitude", Aliases: []string{"Lon", "Long", "Lng"}, Quantity: units.Angle, Min: -180, Max: 180, Directions: "EW", Help: "Degrees, east is positive: -71.06, 71.06 W or 71°3'W.",
			At: func(z *calc.Zone) any { return &z.Place.LongitudeDeg }},
		{Field: "elevation", Heading: "Elevation", Aliases: []string{"Altitude"}, Quantity: units.Elevation, Min: -430, Max: 5000,
			Help: "Above sea level. Blank: the station's.", At: func(z *calc.Zone) any { return &z.Place.ElevationM }},
		{Field: "weather_file", Heading: "Weather file", Aliases: []string{"Weather files", "EPW", "EPW file"},
			Help: "An hourly file of this zone alone, its path counted from the workbook's folder. Several years are several files, separated by semicolons.",
			At:   func(z *calc.Zone) any { return &z.Place.WeatherFiles }},
		{Field: "wind_factor", Heading: "Wind factor", Quantity: units.Factor, Min: 0.3, Max: 1.5, Default: "1", DefaultSource: "wind-as-measured",
			Help: "Wind at the pavement over wind as measured at the station.", At: func(z *calc.Zone) any { return &z.Place.WindFactor }},
	}
}

func area() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "area", Heading: "Area", Aliases: []string{"Plan area", "Heated area", "Surface area"}, Quantity: units.Area, Min: 0.5, Max: 100000, Required: true,
			Help: "Plan area of the heated pavement.", At: func(z *calc.Zone) any { return &z.Extent.AreaM2 }},
		{Field: "perimeter", Heading: "Perimeter", Quantity: units.Length, Min: 2.5, Max: 100000, Help: "Its edge is where heat is lost sideways. Blank: that of a square.",
			At: func(z *calc.Zone) any { return &z.Extent.PerimeterM }},
		{Field: "wind_length", Heading: "Length in the wind's direction", Aliases: []string{"Wind length", "Length in wind direction", "Characteristic length"}, Quantity: units.Length, Min: 0.5, Max: 100,
			Help: "How far the wind blows along the pavement. Blank: the shorter side, at most 6.1 m (20 ft).", At: func(z *calc.Zone) any { return &z.Extent.WindLengthM }},
		{Field: "use", Heading: "Use", Aliases: []string{"Type of use", "Pavement use"},
			Choices: []string{calc.Walk, calc.Stair, calc.Ramp, calc.Drive, calc.Parking, calc.LoadingDock, calc.Plaza, calc.EmergencyEntrance, calc.Helistop},
			Synonyms: map[string]string{"sidewalk": calc.Walk, "walkway": calc.Walk, "footpath": calc.Walk, "stairs": calc.Stair, "steps": calc.Stair, "driveway": calc.Drive,
				"carpark": calc.Parking, "parkinglot": calc.Parking, "dock": calc.LoadingDock, "loadingbay": calc.LoadingDock, "helipad": calc.Helistop, "heliport": calc.Helistop},
			Help: "Decides the snow-free area ratio and the percentile where neither is given.", At: func(z *calc.Zone) any { return &z.Extent.Use }},
		{Field: "critical", Heading: "Critical", Choices: noYes, Synonyms: noYesWords, Help: "People depend on it around the clock. Blank: yes for an emergency entrance and a helistop.",
			At: func(z *calc.Zone) any { return &z.Extent.Critical }},
		{Field: "slope", Heading: "Slope", Aliases: []string{"Fall", "Gradient"}, Quantity: units.Share, Max: 0.25, PercentAbove: 1, Default: "2 %", DefaultSource: "slope-usual",
			Help: "Fall of the surface: 2 %, 0.02 or 1:50.", At: func(z *calc.Zone) any { return &z.Extent.Slope }},
		{Field: "drain", Heading: "Drain", Aliases: []string{"Drained"}, Choices: answers, Synonyms: answerWords, Help: "Meltwater has a drain that does not freeze.",
			At: func(z *calc.Zone) any { return (*string)(&z.Extent.Drain) }},
		{Field: "treads", Heading: "Treads", Aliases: []string{"Number of treads"}, Quantity: units.Count, Min: 1, Max: 1000, Help: "Number of treads of a stair.",
			At: func(z *calc.Zone) any { return &z.Extent.Treads }},
		{Field: "tread_depth", Heading: "Tread depth", Aliases: []string{"Tread"}, Quantity: units.Thickness, Min: 0.1, Max: 3, Help: "From front to back.",
			At: func(z *calc.Zone) any { return &z.Extent.TreadDepthM }},
		{Field: "riser_height", Heading: "Riser height", Aliases: []string{"Riser"}, Quantity: units.Thickness, Min: 0.05, Max: 0.5, Help: "From tread to tread.",
			At: func(z *calc.Zone) any { return &z.Extent.RiserHeightM }},
		{Field: "risers_included", Heading: "Risers included", Choices: noYes, Synonyms: noYesWords, Default: "no", Help: "The area given holds the risers too: no quarter is added for a stair.",
			At: func(z *calc.Zone) any { return &z.Extent.RisersIncluded }},
	}
}

func service() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "snow_free_ratio", Heading: "Snow-free area ratio", Aliases: []string{"Snow free ratio", "Free area ratio", "Ar"}, Quantity: units.Emissivity, Max: 1,
			Help: "0: snow may lie while it melts. 1: bare at all times. Blank: Settings, then by use.", At: func(z *calc.Zone) any { return &z.Service.SnowFree }},
		{Field: "percentile", Heading: "Percentile", Aliases: []string{"Service level", "Satisfaction level"}, Quantity: units.Percent, Min: 75, Max: 100,
			Help: "Share of the hours with snowfall in which the output is enough. Blank: Settings, then by use.", At: func(z *calc.Zone) any { return &z.Service.Percentile }},
		{Field: "design_flux", Heading: "Design flux", Aliases: []string{"Design heat flux"}, Quantity: units.Flux, Min: 10, Max: 2000,
			Help: "Your own upward flux, without back and edge loss. It takes the place of the calculated one and is marked wherever it shows.", At: func(z *calc.Zone) any { return &z.Service.DesignFluxWM2 }},
		{Field: "design_margin", Heading: "Design margin", Quantity: units.Factor, Min: 1, Max: 1.5, Default: "1", DefaultSource: "no-margin",
			Help: "Multiplies the flux: 1.1 is 10 % more.", At: func(z *calc.Zone) any { return &z.Service.DesignMargin }},
	}
}

func slab() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "stage", Heading: "Stage", Choices: []string{calc.NewPour, calc.ExistingHeated, calc.ExistingUnheated, calc.Overlay},
			Synonyms: map[string]string{"new": calc.NewPour, "newslab": calc.NewPour, "newconstruction": calc.NewPour, "topping": calc.Overlay}, Default: calc.NewPour, DefaultSource: "stage-new",
			Help: "What is there now. It decides what can still be cast in.", At: func(z *calc.Zone) any { return &z.Slab.Stage }},
		{Field: "support", Heading: "Support", Choices: []string{calc.OnGround, calc.OverAir, calc.OverHeated},
			Synonyms: map[string]string{"ground": calc.OnGround, "ongrade": calc.OnGround, "suspended": calc.OverAir, "openair": calc.OverAir, "overair": calc.OverAir, "heatedspace": calc.OverHeated},
			Default:  calc.OnGround, DefaultSource: "support-on-ground", Help: "What lies under the slab.", At: func(z *calc.Zone) any { return &z.Slab.Support }},
		{Field: "post_tensioned", Heading: "Post-tensioned", Aliases: []string{"Tendons", "PT"}, Choices: answers, Synonyms: answerWords, Default: "unknown", DefaultSource: "tendons-unknown",
			Help: "Tendons in the slab. Unknown is treated as yes in an existing slab: nothing is cut or cored before a survey.", At: func(z *calc.Zone) any { return (*string)(&z.Slab.PostTensioned) }},
		{Field: "membrane_below", Heading: "Membrane or occupied space below", Aliases: []string{"Membrane", "Membrane below", "Occupied space below"}, Choices: answers, Synonyms: answerWords,
			Default: "unknown", DefaultSource: "membrane-unknown", Help: "Unknown is treated as yes in an existing slab.", At: func(z *calc.Zone) any { return (*string)(&z.Slab.MembraneBelow) }},
		{Field: "surface", Heading: "Surface", Aliases: []string{"Surface material", "Pavement"}, Choices: []string{calc.Concrete, calc.Asphalt, calc.Pavers, calc.Stone},
			Synonyms: map[string]string{"paver": calc.Pavers, "paving": calc.Pavers, "blacktop": calc.Asphalt, "bitumen": calc.Asphalt, "naturalstone": calc.Stone}, Default: calc.Concrete, DefaultSource: "surface-concrete",
			Help: "What people walk or drive on.", At: func(z *calc.Zone) any { return &z.Slab.Surface }},
		{Field: "slab_thickness", Heading: "Slab thickness", Aliases: []string{"Thickness"}, Quantity: units.Thickness, Min: 0.075, Max: 0.6, Help: "Blank: 150 mm (5.9 in).",
			At: func(z *calc.Zone) any { return &z.Slab.ThicknessM }},
		{Field: "conductivity", Heading: "Conductivity", Aliases: []string{"Surface conductivity", "Thermal conductivity"}, Quantity: units.Conductivity, Min: 0.3, Max: 4, Help: "Of the surface; a slab under another course is concrete. Blank: by surface.",
			At: func(z *calc.Zone) any { return &z.Slab.ConductivityWMK }},
		{Field: "surface_thickness", Heading: "Surface thickness", Aliases: []string{"Paver thickness"}, Quantity: units.Thickness, Min: 0.01, Max: 0.3, Help: "Of pavers, stone or asphalt over the slab.",
			At: func(z *calc.Zone) any { return &z.Slab.SurfaceThicknessM }},
		{Field: "bedding_thickness", Heading: "Bedding thickness", Aliases: []string{"Bedding"}, Quantity: units.Thickness, Max: 0.2, Help: "Sand or mortar under pavers or stone.",
			At: func(z *calc.Zone) any { return &z.Slab.BeddingThicknessM }},
		{Field: "depth", Heading: "Pipe or cable depth", Aliases: []string{"Pipe depth", "Cable depth", "Depth", "Tube depth"}, Quantity: units.Thickness, Min: 0.02, Max: 0.6,
			Help: "From the surface to the centre of the pipe or cable. Blank: 75 mm (3.0 in) for pipe, 50 mm (2.0 in) for cable.", At: func(z *calc.Zone) any { return &z.Slab.DepthM }},
		{Field: "insulation", Heading: "Under-slab insulation R", Aliases: []string{"Back insulation R", "Insulation R", "Underslab insulation", "Under-slab insulation", "Back insulation"}, Quantity: units.Insulance, Max: 5,
			Help: "Thermal resistance of the insulation. R-10 is 1.76 m²·K/W. Blank: 0.9 m²·K/W (R-5.1) in a new pour or an overlay, none in an existing slab.", At: func(z *calc.Zone) any { return &z.Slab.InsulationM2KW }},
		{Field: "edge_insulation", Heading: "Edge insulation", Choices: noYes, Synonyms: noYesWords, Default: "no", DefaultSource: "edge-uninsulated", Help: "Insulation along the slab's edge.",
			At: func(z *calc.Zone) any { return &z.Slab.EdgeInsulation }},
		{Field: "ground_temperature", Heading: "Ground temperature", Quantity: units.Temperature, Min: -10, Max: 25, Help: "1 m (3.3 ft) below the slab. Blank: mean air temperature of the year, within 1 °C (34 °F) and 15 °C (59 °F).",
			At: func(z *calc.Zone) any { return &z.Slab.GroundC }},
	}
}

func heat() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "heat", Heading: "Heat", Aliases: []string{"Heating", "Kind of heat", "System"}, Choices: []string{calc.Hydronic, calc.Electric},
			Synonyms: map[string]string{"water": calc.Hydronic, "glycol": calc.Hydronic, "pipe": calc.Hydronic, "cable": calc.Electric, "electricity": calc.Electric, "electrical": calc.Electric},
			Default:  calc.Hydronic, DefaultSource: "heat-hydronic", Help: "Warm fluid in pipes, or electric cable.", At: func(z *calc.Zone) any { return &z.Heat.Kind }},
		{Field: "energy_id", Heading: "Energy ID", Aliases: []string{"Energy", "Tariff"}, Help: "A row of Energy. Blank: no cost is calculated.", At: func(z *calc.Zone) any { return &z.Heat.EnergyID }},
		{Field: "pipe", Heading: "Pipe", Aliases: []string{"Pipe size", "Tube", "Tubing"}, Default: "20 mm", DefaultIP: "3/4 in", DefaultSource: "pipe-usual", OnlyFor: calc.Hydronic, Min: 0.012, Max: 0.032,
			Quantity: units.Thickness, Help: "20x2.0 is outer diameter by wall in mm; 20 mm is the thinner wall of EN ISO 15875; 3/4 in is ASTM F876.", At: func(z *calc.Zone) any { return &z.Heat.Pipe }},
		{Field: "spacing", Heading: "Spacing", Aliases: []string{"Pipe spacing", "Cable spacing", "Tube spacing"}, Quantity: units.Thickness, Min: 0.025, Max: 0.4, Help: "From centre to centre. Blank: left to design.",
			At: func(z *calc.Zone) any { return &z.Heat.SpacingM }},
		{Field: "loop_length", Heading: "Loop length", Aliases: []string{"Circuit length"}, Quantity: units.Length, Min: 5, Max: 400, OnlyFor: calc.Hydronic, Help: "Of one loop with its leaders. Blank: left to design.",
			At: func(z *calc.Zone) any { return &z.Heat.LoopLengthM }},
		{Field: "fluid", Heading: "Fluid", Choices: []string{"propylene glycol", "ethylene glycol"}, Synonyms: map[string]string{"pg": "propylene glycol", "propylene": "propylene glycol", "eg": "ethylene glycol", "ethylene": "ethylene glycol"},
			Default: "propylene glycol", DefaultSource: "fluid-propylene", OnlyFor: calc.Hydronic, Help: "Never plain water.", At: func(z *calc.Zone) any { return &z.Heat.Fluid }},
		{Field: "fluid_concentration", Heading: "Fluid concentration", Aliases: []string{"Concentration", "Glycol", "Glycol concentration"}, Quantity: units.Share, Min: 0.3, Max: 0.55, PercentAbove: 1, OnlyFor: calc.Hydronic,
			Help: "By volume. Blank: the least that stays fluid 5 K (9 °F) below the coldest hour.", At: func(z *calc.Zone) any { return &z.Heat.FluidShare }},
		{Field: "temperature_drop", Heading: "Temperature drop", Aliases: []string{"Supply to return", "Delta T"}, Quantity: units.TemperatureDiff, Min: 5, Max: 17, Default: "11 K", DefaultSource: "drop-usual", OnlyFor: calc.Hydronic,
			Help: "From supply to return.", At: func(z *calc.Zone) any { return &z.Heat.DropK }},
		{Field: "supply_limit", Heading: "Supply limit", Aliases: []string{"Supply temperature limit", "Highest supply temperature"}, Quantity: units.Temperature, Min: 35, Max: 65, OnlyFor: calc.Hydronic,
			Help: "Highest supply temperature. Blank: 55 °C (131 °F), under asphalt 45 °C (113 °F).", At: func(z *calc.Zone) any { return &z.Heat.SupplyLimitC }},
		{Field: "cable_output", Heading: "Cable output", Aliases: []string{"Cable output per length"}, Quantity: units.LinearPower, Min: 10, Max: 50, Default: "30 W/m", DefaultSource: "cable-usual", OnlyFor: calc.Electric,
			Help: "Per length of cable.", At: func(z *calc.Zone) any { return &z.Heat.CableWM }},
		{Field: "voltage", Heading: "Voltage", Quantity: units.Voltage, Min: 100, Max: 600, OnlyFor: calc.Electric, Help: "Blank: kilowatts only, no circuits.", At: func(z *calc.Zone) any { return &z.Heat.VoltageV }},
		{Field: "phases", Heading: "Phases", Aliases: []string{"Phase"}, Quantity: units.Count, Min: 1, Max: 3, OnlyFor: calc.Electric, Help: "1 or 3.", At: func(z *calc.Zone) any { return &z.Heat.Phases }},
		{Field: "installed_output", Heading: "Installed output", Aliases: []string{"Installed output per area"}, Quantity: units.Flux, Min: 50, Max: 1300, Help: "What is or will be installed, per area. Blank: sized here.",
			At: func(z *calc.Zone) any { return &z.Heat.InstalledWM2 }},
	}
}

func sensors() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "detector_housing", Heading: "Detector housing", Aliases: []string{"Housing"}, Choices: answers, Synonyms: answerWords, Help: "A housing for an in-pavement detector is cast in now. Blank: not known.",
			At: func(z *calc.Zone) any { return (*string)(&z.Sensing.Housing) }},
		{Field: "embedded_slab_sensor", Heading: "Embedded slab sensor", Aliases: []string{"Slab sensor"}, Choices: answers, Synonyms: answerWords, Help: "A working slab temperature sensor, or a conduit for one, is there now. Blank: not known.",
			At: func(z *calc.Zone) any { return (*string)(&z.Sensing.SlabSensor) }},
		{Field: "control_now", Heading: "Control now", Aliases: []string{"Present control"}, Choices: []string{"none", "manual", "timer", "aerial detector", "in-pavement detector"},
			Synonyms: map[string]string{"aerial": "aerial detector", "inpavement": "in-pavement detector", "switch": "manual", "no": "none"}, Help: "What starts the heat today.",
			At: func(z *calc.Zone) any { return &z.Sensing.ControlNow }},
		{Field: "start_wanted", Heading: "Start wanted", Choices: []string{"detector", "manual"}, Help: "What should begin heat. Blank: detector.", At: func(z *calc.Zone) any { return &z.Sensing.Start }},
		{Field: "stop_wanted", Heading: "Stop wanted", Choices: []string{"dry", "timer", "manual"}, Help: "What should end heat. Blank: dry.", At: func(z *calc.Zone) any { return &z.Sensing.Stop }},
		{Field: "idling_wanted", Heading: "Idling wanted", Aliases: []string{"Idling"}, Choices: noYes, Synonyms: noYesWords, Help: "Keep the slab warm while no snow falls. Blank: yes where critical.",
			At: func(z *calc.Zone) any { return &z.Sensing.Idling }},
		{Field: "surface_set_point_melting", Heading: "Surface set point melting", Aliases: []string{"Melting set point"}, Quantity: units.Temperature, Min: 1, Max: 7, Default: "3 °C", DefaultSource: "set-point-melting",
			Help: "Surface temperature while it snows.", At: func(z *calc.Zone) any { return &z.Sensing.SurfaceMeltC }},
		{Field: "surface_set_point_idling", Heading: "Surface set point idling", Aliases: []string{"Idling set point"}, Quantity: units.Temperature, Min: -5, Max: 3, Default: "0.5 °C", DefaultSource: "set-point-idling",
			Help: "Surface temperature while idling.", At: func(z *calc.Zone) any { return &z.Sensing.SurfaceIdleC }},
		{Field: "lowest_melting_temperature", Heading: "Lowest melting temperature", Aliases: []string{"Low ambient lockout", "Cold cut-off"}, Quantity: units.Temperature, Min: -25, Max: -8,
			Help: "Below it no heat is given. Blank: none.", At: func(z *calc.Zone) any { return &z.Sensing.LowestMeltC }},
		{Field: "panel_distance", Heading: "Distance to panel", Aliases: []string{"Panel distance"}, Quantity: units.Length, Min: 1, Max: 300, Help: "From the detector to the control panel along the cable. Blank: 15 m (49 ft), marked assumed.",
			At: func(z *calc.Zone) any { return &z.Sensing.PanelM }},
		{Field: "mast_available", Heading: "Roof or mast available", Aliases: []string{"Mast available", "Roof available"}, Choices: answers, Synonyms: answerWords, Help: "A place for an aerial detector with open sky.",
			At: func(z *calc.Zone) any { return (*string)(&z.Sensing.MastAvailable) }},
	}
}

func siting() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "traffic", Heading: "Traffic at detector", Aliases: []string{"Traffic"}, Choices: []string{"none", "foot", "wheel", "parked"}, Synonyms: map[string]string{"no": "none", "wheels": "wheel", "parking": "parked", "pedestrian": "foot"},
			Help: "What passes or stands where the detector is or will be.", At: func(z *calc.Zone) any { return &z.Siting.Traffic }},
		{Field: "distance_to_edge", Heading: "Distance to heated edge", Aliases: []string{"Distance to edge"}, Quantity: units.Length, Max: 100, Help: "From the detector to the edge of the heated area.",
			At: func(z *calc.Zone) any { return &z.Siting.EdgeM }},
		{Field: "obstacle_height", Heading: "Obstacle height", Quantity: units.Length, Max: 1000, Help: "Of what shelters the detector from snow, above it.", At: func(z *calc.Zone) any { return &z.Siting.ObstacleHeightM }},
		{Field: "distance_to_obstacle", Heading: "Distance to obstacle", Aliases: []string{"Obstacle distance"}, Quantity: units.Length, Max: 10000, Help: "From the detector to it.", At: func(z *calc.Zone) any { return &z.Siting.ObstacleM }},
		{Field: "overhang", Heading: "Overhang or trees", Aliases: []string{"Overhang", "Trees"}, Choices: answers, Synonyms: answerWords, Help: "Above the detector.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.Overhang) }},
		{Field: "drains_past", Heading: "Drains past detector", Choices: answers, Synonyms: answerWords, Help: "Meltwater runs over the detector.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.DrainsPast) }},
		{Field: "sun", Heading: "Sun", Choices: []string{"first", "last", "mixed"}, Help: "The detector's place is among the first or the last to be dried by the sun.", At: func(z *calc.Zone) any { return &z.Siting.Sun }},
		{Field: "shaded_share", Heading: "Shaded share at winter noon", Aliases: []string{"Shaded share"}, Quantity: units.Share, Max: 1, PercentAbove: 1, Help: "Of the area, at noon on the shortest day.", At: func(z *calc.Zone) any { return &z.Siting.ShadedShare }},
		{Field: "wind_blown", Heading: "Wind-blown or tracked snow", Aliases: []string{"Wind blown snow", "Tracked snow", "Drifts"}, Choices: answers, Synonyms: answerWords, Help: "Snow comes onto the pavement when none falls.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.WindBlown) }},
		{Field: "snow_stored", Heading: "Snow stored beside", Choices: answers, Synonyms: answerWords, Help: "Ploughed snow lies beside the detector.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.SnowStored) }},
		{Field: "salt", Heading: "Salt used", Aliases: []string{"Salt"}, Choices: answers, Synonyms: answerWords, Help: "On this pavement or tracked onto it.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.Salt) }},
		{Field: "exhaust", Heading: "Exhaust within 3 m", Aliases: []string{"Exhaust"}, Choices: answers, Synonyms: answerWords, Help: "Warm or moist air that blows at the detector from within 3 m (10 ft).", At: func(z *calc.Zone) any { return (*string)(&z.Siting.Exhaust) }},
		{Field: "unheated_downhill", Heading: "Unheated walk downhill", Aliases: []string{"Unheated downhill"}, Choices: answers, Synonyms: answerWords, Help: "Meltwater runs onto unheated pavement and freezes there.", At: func(z *calc.Zone) any { return (*string)(&z.Siting.UnheatedDownhill) }},
	}
}

func money() []Column[calc.Zone] {
	return []Column[calc.Zone]{
		{Field: "clearing_cost", Heading: "Clearing cost a year now", Aliases: []string{"Clearing cost", "Snow clearing cost"}, Quantity: units.Number, Max: Most, Money: true, Help: "What ploughing, shovelling and salting of this zone costs a year today.",
			At: func(z *calc.Zone) any { return &z.Money.ClearingCost }},
		{Field: "energy_used", Heading: "Energy used a year now", Aliases: []string{"Energy used"}, Quantity: units.Energy, Max: Most, Help: "Metered for this zone.", At: func(z *calc.Zone) any { return &z.Money.EnergyUsedKWh }},
		{Field: "energy_used_winter", Bookkeeping: true, Heading: "Its winter", Aliases: []string{"Winter of the energy used"}, Help: "The winter of the metered energy: 2024/25.", At: func(z *calc.Zone) any { return &z.Money.EnergyUsedWinter }},
		{Field: "first_cost", Heading: "First cost", Quantity: units.Number, Max: Most, Money: true, Help: "Of this zone, as offered.", At: func(z *calc.Zone) any { return &z.Money.FirstCost }},
		{Field: "chosen_alternative", Bookkeeping: true, Heading: "Chosen alternative", Help: "Name of the alternative that the owner chose.", At: func(z *calc.Zone) any { return &z.Money.ChosenAlternative }},
		{Field: "decision", Bookkeeping: true, Heading: "Decision", Choices: []string{"open", "approved", "declined", "deferred"}, Help: "Where the owner's decision stands.", At: func(z *calc.Zone) any { return &z.Money.Decision }},
	}
}
