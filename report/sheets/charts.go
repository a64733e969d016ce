package sheets

import (
	"fmt"
	"regexp"
	"slices"

	"github.com/xuri/excelize/v2"

	"thawbook/calc/cost"
	"thawbook/calc/finding"
	"thawbook/calc/season"
	"thawbook/calc/units"
)

// chartName is how a chart of ours is known, whatever a person does with its drawing.
const chartName = "thawbook chart"

const (
	chartWide = 720  // pixels
	chartHigh = 400  // pixels
	perPixel  = 9525 // units of a drawing
	chartInk  = "404040"
)

// printedChart says whether the picture is printed. Elsewhere it stands far to the right of the last column, and would take pages of its own.
func (t *table) printedChart() bool { return t.Key == "portfolio" }

var anchored = regexp.MustCompile(`(?s)<xdr:twoCellAnchor[^>]*>(.*?)<xdr:to>.*?</xdr:to>(.*?)</xdr:twoCellAnchor>`)

// pinned returns a drawing whose chart keeps its size whatever becomes of the rows and columns below it: filters hide rows.
func pinned(drawing []byte) []byte {
	size := fmt.Sprintf(`<xdr:ext cx="%d" cy="%d"/>`, chartWide*perPixel, chartHigh*perPixel)
	return anchored.ReplaceAll(drawing, []byte(`<xdr:oneCellAnchor>${1}`+size+`${2}</xdr:oneCellAnchor>`))
}

// draw puts the picture of a sheet, where it has one worth drawing, right of its columns.
func (t *table) draw() error {
	if t.rows < 2 {
		return nil
	}
	var c *excelize.Chart
	switch t.Key {
	case "portfolio":
		c = t.portfolioChart()
	case "setpoints":
		c = t.setPointChart()
	case "season":
		c = t.seasonChart()
	case "cost":
		c = t.costChart()
	case "alternatives":
		c = t.alternativesChart()
	}
	if c == nil || len(c.Series) == 0 {
		return nil
	}
	c.Dimension = excelize.ChartDimension{Width: chartWide, Height: chartHigh}
	c.Format = excelize.GraphicOptions{Name: chartName, AltText: c.Title.Paragraph[0].Text, ScaleX: 1, ScaleY: 1}
	c.Legend = excelize.ChartLegend{Position: "bottom"}
	if len(c.Series) == 1 {
		one := false
		c.Legend.Position, c.VaryColors = "none", &one
	}
	c.YAxis.MajorGridLines = true
	c.XAxis.TickLabelPosition = excelize.ChartTickLabelLow
	c.XAxis.Font, c.YAxis.Font = excelize.Font{Color: chartInk, Size: 9}, excelize.Font{Color: chartInk, Size: 9}
	t.charted = true
	return t.writer.file.AddChart(t.name, cellName(t.width()+2, 2), c)
}

// titled returns a chart with a title and the titles of its axes.
func (t *table) titled(kind excelize.ChartType, title, across, up string) *excelize.Chart {
	text := func(s string, size float64) []excelize.RichTextRun {
		return []excelize.RichTextRun{{Text: s, Font: &excelize.Font{Size: size, Bold: true}}}
	}
	c := &excelize.Chart{Type: kind, Title: excelize.ChartTitle{Paragraph: text(title, 12)}}
	c.XAxis.Title, c.YAxis.Title = excelize.ChartTitle{Paragraph: text(across, 9)}, excelize.ChartTitle{Paragraph: text(up, 9)}
	return c
}

// portfolioChart shows the yearly cost by region, a bar for each winter.
func (t *table) portfolioChart() *excelize.Chart {
	w := t.writer.head.Words
	region, total := t.column("region"), t.column("total")
	if region == 0 || total == 0 || !t.writer.portfolio.All().Design.Winter[0].Known {
		return nil
	}
	c := t.titled(excelize.Col, w.Say("chart-portfolio"), t.headingOf("region"), t.headingOf("total"))
	winters := len(cost.Winters)
	last := 1 + winters*len(t.writer.portfolio.Totals()) // the lists of sites stand below
	for i, winter := range cost.Winters {
		c.Series = append(c.Series, excelize.ChartSeries{Name: string(winter), Categories: t.every(region, 2+i, last, winters), Values: t.every(total, 2+i, last, winters), Fill: solid(winterInk[i])})
	}
	return c
}

// winterInk are the colours of a mild, a typical and a severe winter.
var winterInk = [...]string{"9DB8C6", "2F7F86", "1F3F5B"}

// every names each n-th cell of a column between two rows.
func (t *table) every(col, from, last, n int) string {
	if n == 1 || from+n > last {
		return t.cellsOf(col, from, from)
	}
	list := "("
	for row := from; row <= last; row += n {
		if row > from {
			list += ","
		}
		list += t.cellsOf(col, row, row)
	}
	return list + ")"
}

// cellsOf names the cells of a column between two rows.
func (t *table) cellsOf(col, from, to int) string {
	a, b := place{col, from, true, true}, place{col, to, true, true}
	return quoted(t.name) + "!" + span{a, b, from == to}.String()
}

// setPointChart shows the set points of the first zone over the outdoor temperature.
func (t *table) setPointChart() *excelize.Chart {
	outdoor := t.column("outdoor")
	if outdoor == 0 || t.firstPoints < 2 {
		return nil
	}
	c := t.titled(excelize.Line, t.writer.head.Words.Say("chart-set-points", t.firstZone()...), t.headingOf("outdoor"),
		t.writer.head.Words.Say("chart-temperature", finding.Words("unit", t.show().Unit(units.Temperature))))
	for i, key := range []string{"slab-melting", "slab-idling", "supply-melting", "supply-idling"} {
		if col := t.column(key); col != 0 {
			c.Series = append(c.Series, excelize.ChartSeries{Name: quoted(t.name) + "!" + place{col, 1, true, true}.String(), Categories: t.cellsOf(outdoor, 2, 1+t.firstPoints),
				Values: t.cellsOf(col, 2, 1+t.firstPoints), Line: excelize.LineOptions{Width: 2}, Fill: solid(lineInk[i]), Marker: excelize.ChartMarker{Symbol: "none"}})
		}
	}
	return c
}

var lineInk = [...]string{"1F3F5B", "7FA5B5", "B5482F", "E3A587"}

// seasonChart shows the heat of each strategy for the first zone.
func (t *table) seasonChart() *excelize.Chart {
	if t.firstPoints != len(season.Strategies) {
		return nil
	}
	return t.bars("chart-season", "strategy", "energy", func(col int) string { return t.cellsOf(col, 2, 1+t.firstPoints) })
}

// costChart shows what each strategy costs the first zone in a typical winter.
func (t *table) costChart() *excelize.Chart {
	if t.firstPoints != len(season.Strategies)*len(cost.Winters) || t.firstPriced == 0 {
		return nil
	}
	return t.bars("chart-cost", "strategy", "total", func(col int) string { return t.every(col, 3, 1+t.firstPoints, len(cost.Winters)) })
}

// alternativesChart shows the present value of each way of doing the first site.
func (t *table) alternativesChart() *excelize.Chart {
	if t.firstPoints < 2 || t.firstPriced == 0 {
		return nil
	}
	return t.bars("chart-alternatives", "alternative", "present-value", func(col int) string { return t.cellsOf(col, 2, 1+t.firstPoints) })
}

// bars returns a chart of bars, one below the other, of the cells that are named of two columns.
func (t *table) bars(title, across, up string, cells func(col int) string) *excelize.Chart {
	names, values := t.column(across), t.column(up)
	if names == 0 || values == 0 {
		return nil
	}
	c := t.titled(excelize.Bar, t.writer.head.Words.Say(title, t.firstZone()...), t.headingOf(across), t.headingOf(up))
	c.Series = []excelize.ChartSeries{{Name: quoted(t.name) + "!" + place{values, 1, true, true}.String(), Categories: cells(names), Values: cells(values), Fill: solid(winterInk[1])}}
	c.XAxis.ReverseOrder = true // the first on top
	c.YAxis.NumFmt = excelize.ChartNumFmt{CustomNumFmt: numberFormat(0)}
	return c
}

func (t *table) headingOf(key string) string {
	i := slices.IndexFunc(t.Columns, func(c SheetColumn) bool { return c.Key == key })
	if i < 0 {
		return fmt.Sprintf("[%s]", key)
	}
	return t.headings[i]
}

// firstZone names the zone that a chart shows.
func (t *table) firstZone() []finding.Arg {
	return []finding.Arg{finding.Words("site", t.first.SiteID), finding.Words("zone", t.first.ZoneID)}
}
