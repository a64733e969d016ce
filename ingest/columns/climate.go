package columns

import "thawbook/calc/units"

// ClimateRow is one row of Climate. Without a month it is a station with hourly files, or a design hour; with a month it is that month's normals
// of its station.
type ClimateRow struct {
	Station                               string
	LatitudeDeg, LongitudeDeg, ElevationM units.Maybe[float64]
	WeatherFiles                          string
	Month                                 Month
	MeanC, DailyRangeK, DewC, WindMS      units.Maybe[float64]
	CloudShare, SnowMM, RainMM, SnowDays  units.Maybe[float64]
	DesignAirC, DesignDewC                units.Maybe[float64]
	DesignWindMS, DesignSnowMMH           units.Maybe[float64]
	ExtremeMinC, SnowVariation            units.Maybe[float64]
}

// Climate returns the columns of Climate.
func Climate() []Column[ClimateRow] {
	var all []Column[ClimateRow]
	for _, g := range []struct {
		name string
		list []Column[ClimateRow]
	}{{"station", climateStation()}, {"monthly normals", climateMonth()}, {"design hour", climateHour()}} {
		for _, c := range g.list {
			c.Group = g.name
			all = append(all, c)
		}
	}
	return sheetOf(SheetClimate, all)
}

func climateStation() []Column[ClimateRow] {
	return []Column[ClimateRow]{
		{Field: "climate_station", Heading: "Station", Aliases: []string{"Station name", "Weather station"}, Required: true, Help: "The name that Sites uses.", At: func(r *ClimateRow) any { return &r.Station }},
		{Field: "climate_latitude", Heading: "Latitude", Aliases: []string{"Lat"}, Quantity: units.Angle, Min: -90, Max: 90, Directions: "NS", Help: "Blank: as the file says.", At: func(r *ClimateRow) any { return &r.LatitudeDeg }},
		{Field: "climate_longitude", Heading: "Longitude", Aliases: []string{"Lon", "Long", "Lng"}, Quantity: units.Angle, Min: -180, Max: 180, Directions: "EW", Help: "Blank: as the file says.", At: func(r *ClimateRow) any { return &r.LongitudeDeg }},
		{Field: "climate_elevation", Heading: "Elevation", Aliases: []string{"Altitude"}, Quantity: units.Elevation, Min: -430, Max: 5000, Help: "Blank: as the file says.", At: func(r *ClimateRow) any { return &r.ElevationM }},
		{Field: "climate_weather_file", Heading: "Weather file", Aliases: []string{"Weather files", "EPW", "EPW file"}, Help: "Hourly files, counted from the workbook's folder. Several years are several files, separated by semicolons.", At: func(r *ClimateRow) any { return &r.WeatherFiles }},
		{Field: "climate_extreme_minimum", Heading: "Extreme minimum", Aliases: []string{"Extreme minimum temperature"}, Quantity: units.Temperature, Min: -70, Max: 15, Help: "The coldest to be expected. The fluid must not freeze at it.", At: func(r *ClimateRow) any { return &r.ExtremeMinC }},
		{Field: "climate_snow_variation", Heading: "Snowfall variation", Aliases: []string{"Coefficient of variation"}, Quantity: units.Factor, Max: 1.5, Help: "Coefficient of variation of seasonal snowfall totals. Blank: 0.35, or that of several years given.", At: func(r *ClimateRow) any { return &r.SnowVariation }},
	}
}

func climateMonth() []Column[ClimateRow] {
	return []Column[ClimateRow]{
		{Field: "climate_month", Heading: "Month", Help: "For monthly normals: a row for each month, 1 to 12 or its name.", At: func(r *ClimateRow) any { return &r.Month }},
		{Field: "climate_mean", Heading: "Mean temperature", Aliases: []string{"Mean air temperature"}, Quantity: units.Temperature, Min: -60, Max: 45, Help: "Of the month.", At: func(r *ClimateRow) any { return &r.MeanC }},
		{Field: "climate_daily_range", Heading: "Daily range", Quantity: units.TemperatureDiff, Max: 35, Help: "Mean daily maximum less mean daily minimum.", At: func(r *ClimateRow) any { return &r.DailyRangeK }},
		{Field: "climate_dew_point", Heading: "Mean dew point", Aliases: []string{"Dew point"}, Quantity: units.Temperature, Min: -70, Max: 35, Help: "Of the month.", At: func(r *ClimateRow) any { return &r.DewC }},
		{Field: "climate_wind", Heading: "Mean wind", Aliases: []string{"Wind"}, Quantity: units.Speed, Max: 30, Help: "At 10 m (33 ft) above open ground.", At: func(r *ClimateRow) any { return &r.WindMS }},
		{Field: "climate_cloud", Heading: "Cloud share", Aliases: []string{"Cloud cover"}, Quantity: units.Share, Max: 1, PercentAbove: 1, Help: "Mean share of the sky.", At: func(r *ClimateRow) any { return &r.CloudShare }},
		{Field: "climate_snow", Heading: "Snowfall water equivalent", Aliases: []string{"Snow water equivalent", "Snowfall"}, Quantity: units.WaterDepth, Max: 1500, Help: "Of the month, as water, not as depth of snow.", At: func(r *ClimateRow) any { return &r.SnowMM }},
		{Field: "climate_rain", Heading: "Rain", Quantity: units.WaterDepth, Max: 2000, Help: "Of the month.", At: func(r *ClimateRow) any { return &r.RainMM }},
		{Field: "climate_snow_days", Heading: "Snow days", Aliases: []string{"Days with snowfall"}, Quantity: units.Number, Max: 31, Help: "Days of the month with snowfall.", At: func(r *ClimateRow) any { return &r.SnowDays }},
	}
}

func climateHour() []Column[ClimateRow] {
	return []Column[ClimateRow]{
		{Field: "climate_design_air", Heading: "Design air temperature", Quantity: units.Temperature, Min: -60, Max: 5, Help: "One hour that really occurred, not the extremes of each value.", At: func(r *ClimateRow) any { return &r.DesignAirC }},
		{Field: "climate_design_dew", Heading: "Design dew point", Quantity: units.Temperature, Min: -70, Max: 5, Help: "In the same hour.", At: func(r *ClimateRow) any { return &r.DesignDewC }},
		{Field: "climate_design_wind", Heading: "Design wind", Aliases: []string{"Design wind speed"}, Quantity: units.Speed, Max: 40, Help: "In the same hour, at 10 m (33 ft) above open ground.", At: func(r *ClimateRow) any { return &r.DesignWindMS }},
		{Field: "climate_design_snow", Heading: "Design snowfall rate", Aliases: []string{"Snowfall rate"}, Quantity: units.SnowRate, Min: 0.1, Max: 10, RangeCode: CodeSnowfallHigh, Help: "In the same hour, as water, not as depth of snow.", At: func(r *ClimateRow) any { return &r.DesignSnowMMH }},
	}
}
