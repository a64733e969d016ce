package sheets

import (
	"fmt"
	"strconv"

	"thawbook/calc/surface"
	"thawbook/calc/units"
	"thawbook/report/show"
)

// loads is a row a zone: every term of the surface balance, frequencies, losses and totals.
func loads() sheet {
	columns := append(zoneColumns(),
		SheetColumn{Key: "status", Heading: "Status", Width: 9, Look: Status, Get: func(r Row) any { return r.Zone.Status() }},
		SheetColumn{Key: "area", Heading: "Area", Quantity: units.Area, Get: func(r Row) any { return positive(r.Zone.Zone.Extent.AreaM2) }},
		SheetColumn{Key: "use", Heading: "Use", Width: 14, Get: func(r Row) any { return r.Zone.Zone.Extent.Use }},
		SheetColumn{Key: "station", Heading: "Weather station", Width: 22, Get: func(r Row) any { return r.Zone.Weather.Station }},
		SheetColumn{Key: "weather", Heading: "Weather", Width: 13, Get: func(r Row) any { return string(r.Zone.Weather.Kind) }},
		SheetColumn{Key: "years", Heading: "Years of weather", Quantity: units.Years, Get: func(r Row) any { return some(r.Zone.Weather.Years) }},
		SheetColumn{Key: "rule", Heading: "Snow told by", Width: 22, Look: Wrapped, Get: func(r Row) any { return string(r.Zone.Weather.Rule) }},
		SheetColumn{Key: "method", Heading: "Method", Width: 12, Get: ofLoad(func(l *surface.Load) any { return string(l.Method) })},
		SheetColumn{Key: "snow-free", Heading: "Snow-free area ratio", Quantity: units.Number, Get: ofLoad(func(l *surface.Load) any { return known(l.Method != surface.Given, l.Input.SnowFree) })},
		SheetColumn{Key: "percentile", Heading: "Percentile", Quantity: units.Percent, Get: ofLoad(func(l *surface.Load) any {
			return known(l.Method == surface.Hourly || l.Method == surface.Synthetic, l.Input.Percentile)
		})},
		SheetColumn{Key: "length", Heading: "Length in the wind's direction", Quantity: units.Length, Get: ofLoad(func(l *surface.Load) any { return positive(l.Input.LengthM) })},
		SheetColumn{Key: "snow-hours", Heading: "Snowfall hours a year", Quantity: units.Hours, Get: ofLoad(func(l *surface.Load) any { return known(l.Frequency.Known, l.SnowHours) })},
		SheetColumn{Key: "design-hour", Heading: "Design hour", Width: 15, Get: ofHour(func(t surface.Terms) any { return show.Hour(t) })},
	)
	columns = append(columns, hourColumns()...)
	columns = append(columns,
		SheetColumn{Key: "to-percentile", Heading: "To the percentile", Quantity: units.Flux, Get: ofLoad(func(l *surface.Load) any { return known(l.Hour.Known, l.ToPercentileWM2) })},
		SheetColumn{Key: "margin", Heading: "Design margin adds", Quantity: units.Flux, Get: ofLoad(func(l *surface.Load) any { return l.MarginWM2 })},
		SheetColumn{Key: "stairs", Heading: "Stairs add", Quantity: units.Flux, Get: ofLoad(func(l *surface.Load) any { return l.StairsWM2 })},
		SheetColumn{Key: "design", Heading: "Design flux", Quantity: units.Flux, Get: ofLoad(func(l *surface.Load) any { return l.DesignWM2 })},
		SheetColumn{Key: "unmet", Heading: "Snowfall hours above the design flux", Quantity: units.Hours, Get: ofLoad(func(l *surface.Load) any { return l.UnmetHours })},
		SheetColumn{Key: "back", Heading: "Back loss", Quantity: units.Flux, Get: func(r Row) any { return r.Zone.Design.BackWM2 }},
		SheetColumn{Key: "edge", Heading: "Edge loss", Quantity: units.Power, Get: func(r Row) any { return r.Zone.Design.EdgeW }},
		SheetColumn{Key: "total", Heading: "Total heat", Quantity: units.Power, Get: func(r Row) any { return r.Zone.Design.TotalW }},
		SheetColumn{Key: "installed", Heading: "Installed output", Quantity: units.Flux, Get: func(r Row) any { return r.Zone.Design.InstalledWM2 }},
		SheetColumn{Key: "set-by", Heading: "Installed output set by", Width: 14, Get: installedBy},
		SheetColumn{Key: "installed-unmet", Heading: "Snowfall hours above the installed output", Quantity: units.Hours, Get: func(r Row) any { return r.Zone.Design.UnmetHours }},
		SheetColumn{Key: "infrared", Heading: "Flux at the percentile with the sky's infrared", Quantity: units.Flux, Get: ofLoad(func(l *surface.Load) any { return l.InfraredWM2 })},
		SheetColumn{Key: "quarter-hours", Heading: "Snowfall hours of 0.25 mm (0.01 in) and more", Quantity: units.Hours, Get: ofLoad(func(l *surface.Load) any { return known(l.Quarter.Known, l.QuarterHours) })},
	)
	for r := range surface.Ratios {
		for p := range surface.Percentiles {
			columns = append(columns, frequencyColumn("flux", "Flux", r, p, func(l *surface.Load) units.Maybe[surface.Frequency] { return l.Frequency }))
		}
	}
	for p := range surface.Percentiles {
		columns = append(columns, frequencyColumn("quarter", "0.25 mm (0.01 in) and more: flux", 2, p, func(l *surface.Load) units.Maybe[surface.Frequency] { return l.Quarter }))
	}
	return sheet{Key: "loads", Name: "Results Loads", Frozen: 4, Columns: columns, Rows: eachZone}
}

// hourColumns are the weather and the terms of the design hour.
func hourColumns() []SheetColumn {
	return []SheetColumn{
		{Key: "outdoor", Heading: "Outdoor", Quantity: units.Temperature, Get: ofHour(func(t surface.Terms) any { return t.AirC })},
		{Key: "dew-point", Heading: "Dew point", Quantity: units.Temperature, Get: ofHour(func(t surface.Terms) any { return t.DewC })},
		{Key: "wind", Heading: "Wind", Quantity: units.Speed, Get: ofHour(func(t surface.Terms) any { return t.WindMS })},
		{Key: "snow", Heading: "Snowfall, as water", Quantity: units.SnowRate, Get: ofHour(func(t surface.Terms) any { return t.SnowMMH })},
		{Key: "film", Heading: "Film coefficient", Quantity: units.Coefficient, Get: ofHour(func(t surface.Terms) any { return t.FilmCoefficient })},
		{Key: "sensible", Heading: "Sensible q_s", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Sensible })},
		{Key: "melt", Heading: "Melt q_m", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Melt })},
		{Key: "convection", Heading: "Convection in q_h", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Convection })},
		{Key: "radiation", Heading: "Radiation in q_h", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Radiation })},
		{Key: "evaporation", Heading: "Evaporation q_e", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Evaporation })},
		{Key: "hour-total", Heading: "Total of the hour q_o", Quantity: units.Flux, Get: ofHour(func(t surface.Terms) any { return t.Total })},
	}
}

func frequencyColumn(key, heading string, ratio, percentile int, get func(*surface.Load) units.Maybe[surface.Frequency]) SheetColumn {
	a, p := strconv.FormatFloat(surface.Ratios[ratio], 'f', -1, 64), strconv.FormatFloat(surface.Percentiles[percentile], 'f', -1, 64)
	return SheetColumn{
		Key: fmt.Sprintf("%s-%s-%s", key, a, p), Heading: fmt.Sprintf("%s at %s %%, snow-free %s", heading, p, a), Quantity: units.Flux,
		Get: ofLoad(func(l *surface.Load) any {
			f := get(l)
			return known(f.Known, f.Value[ratio][percentile])
		}),
	}
}

func installedBy(r Row) any {
	switch {
	case !r.Zone.Design.InstalledWM2.Known:
		return nil
	case r.Zone.Design.FloorRules:
		return r.Words.Say("set-by-floor")
	case r.Zone.Zone.Heat.InstalledWM2.Known:
		return r.Words.Say("set-by-owner")
	}
	return r.Words.Say("set-by-load")
}

func known(is bool, v float64) any {
	if !is {
		return nil
	}
	return v
}

func positive(v float64) any { return known(v > 0, v) }
