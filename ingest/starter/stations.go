package starter

import (
	"fmt"

	"thawbook/calc/finding"
	"thawbook/calc/units"
)

// stationField is the column whose drop-down is the list of built-in stations.
const stationField finding.Field = "station"

// stationsHead is the row of the headings of the sheet of built-in stations.
const stationsHead = 2

// stationCells returns the cells that hold the names of the built-in stations.
func (b *builder) stationCells() string {
	return fmt.Sprintf("'%s'!$A$%d:$A$%d", b.texts.say("sheet-stations"), stationsHead+1, stationsHead+len(b.stations))
}

// stationsSheet writes the built-in stations: their names are too many for a drop-down that holds its own list.
func (b *builder) stationsSheet() error {
	sheet := b.texts.say("sheet-stations")
	if _, err := b.file.NewSheet(sheet); err != nil {
		return err
	}
	height := units.Elevation.In(b.system)
	t := &table{}
	for _, s := range b.stations {
		t.rows = append(t.rows, []string{s.Name, fmt.Sprintf("%.2f", s.LatDeg), fmt.Sprintf("%.2f", s.LonDeg), fmt.Sprintf("%.0f", height.FromBase(s.ElevationM)), s.Source})
	}
	var heads []head
	for _, text := range []string{b.texts.say("station"), b.texts.say("latitude"), b.texts.say("longitude"), b.texts.say("elevation") + " [" + height.Symbol + "]", b.texts.say("record")} {
		heads = append(heads, head{text: text})
	}
	return b.grid(sheet, heads, t)
}
