package sheets

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/xuri/excelize/v2"

	"thawbook/calc"
	"thawbook/calc/cost"
	"thawbook/calc/units"
	"thawbook/report/show"
)

const (
	digits      = 7      // significant digits of a number in a cell
	mostLinks   = 65_530 // of a sheet, as the format has it; what is beyond is a text
	headHeight  = 44.0   // points
	rowHeight   = 13.5   // points, one line
	mostHeight  = 405.0  // points, thirty lines; a row can't be higher than 409
	textLimit   = 32767  // characters of a cell
	perWidth    = 0.85   // column width that a character takes, with what is lost at the ends of lines
	landscape   = "landscape"
	paperA4     = 9
	paperLetter = 1
	tableStyle  = "TableStyleLight1" // lines and filters only: cells bear their own formats
)

// table is a result sheet while it is written.
type table struct {
	sheet
	writer   *Writer
	name     string // in the workbook
	part     string // in the workbook
	made     string // in the library's
	before   *earlier
	stream   *excelize.StreamWriter
	at       []int // column of each of ours
	keys     []int // of our columns, those that make the key
	headings []string
	rows     int // written, with the headings
	moves    moves
	sums     checkSums
	links    []cellLinkAt
	linked   map[int]bool // columns in which we put links
	style    []int        // by column
	cells    []excelize.Cell
	values   []any           // points into cells; used again for every row
	marks    map[string]bool // formulas of our conditional formats, by shape
	err      error

	tabled, drawn       bool // has a table and a drawing that this run made
	charted             bool // has a picture
	tablePart, drawPart string

	first       calc.Ref // the zone of the first row, or its site alone
	firstPoints int      // how many rows it has
	firstPriced int      // how many of them tell an amount of money
}

// cellLinkAt is a link at a cell.
type cellLinkAt struct {
	at string
	Link
}

// width returns the last column in use.
func (t *table) width() int {
	last := slices.Max(t.at)
	if t.before != nil {
		last = max(last, t.before.width)
	}
	return last
}

// place gives each of our columns its place: in their order, or where the run before left them, new ones behind all others.
func (t *table) place() {
	t.at = make([]int, len(t.Columns))
	next := 1
	if t.before != nil && t.before.width > 0 {
		copy(t.at, t.before.at)
		next = t.before.width + 1
	}
	for i := range t.at {
		if t.at[i] == 0 {
			t.at[i] = next
			next++
		}
	}
}

// column returns the place of a column; 0 where the sheet has none of that key.
func (t *table) column(key string) int {
	i := slices.IndexFunc(t.Columns, func(c SheetColumn) bool { return c.Key == key })
	if i < 0 {
		return 0
	}
	return t.at[i]
}

// open sets a sheet up and writes its heading row.
func (w *Writer) open(t *table) error {
	t.writer = w
	t.place()
	t.keys, t.sums = t.keyColumns(), newSums(len(t.Columns))
	t.moves.to, t.linked = map[int]int{}, map[int]bool{}
	if t.before != nil {
		t.moves.last = t.before.last
	}
	if err := w.page(t); err != nil {
		return err
	}
	stream, err := w.file.NewStreamWriter(t.name)
	if err != nil {
		return err
	}
	t.stream = stream
	frozen := excelize.Panes{Freeze: true, XSplit: t.Frozen, YSplit: 1, TopLeftCell: cellName(t.Frozen+1, 2), ActivePane: "bottomRight"}
	if err := t.stream.SetPanes(&frozen); err != nil {
		return err
	}
	return t.head()
}

// head writes the headings and the widths.
func (t *table) head() error {
	t.cells = make([]excelize.Cell, len(t.Columns))
	t.values = make([]any, t.width())
	t.style = make([]int, len(t.Columns))
	t.headings = make([]string, len(t.Columns))
	byPlace := make([]int, len(t.Columns))
	for i := range byPlace {
		byPlace[i] = i
	}
	slices.SortFunc(byPlace, func(a, b int) int { return t.at[a] - t.at[b] })
	for _, i := range byPlace {
		c, at := t.Columns[i], t.at[i]
		if err := t.stream.SetColWidth(at, at, width(c, t.show())); err != nil {
			return err
		}
		t.headings[i] = t.heading(c)
		t.style[i] = t.look(c)
		t.values[at-1] = &t.cells[i]
		t.cells[i] = excelize.Cell{StyleID: t.restyled(1, at, t.writer.looks.head(c.Look == Money || c.Look == Budget || c.Quantity != units.Text)), Value: t.headings[i]}
	}
	if t.before != nil {
		for at, heading := range t.before.theirs { // the library looks here for the names of a table's columns; their own cells take their place
			t.values[at-1] = excelize.Cell{Value: heading}
		}
	}
	t.rows = 1
	err := t.stream.SetRow("A1", t.values, excelize.RowOpts{Height: headHeight})
	for at := range t.beforeHeadings() {
		t.values[at-1] = nil
	}
	return err
}

func (t *table) beforeHeadings() map[int]string {
	if t.before == nil {
		return nil
	}
	return t.before.theirs
}

// heading returns a column's heading with its unit, told from those of a person's columns: no two columns of a table may have the same.
func (t *table) heading(c SheetColumn) string {
	text := heading(c, t.show())
	for slices.ContainsFunc(slices.Collect(maps.Values(t.beforeHeadings())), func(theirs string) bool { return strings.EqualFold(theirs, text) }) {
		text += " (2)"
	}
	return text
}

func (t *table) show() show.Style { return t.writer.head.Words.Show }

// restyled returns the format that a person gave to a cell of ours in the run before, else the usual one.
func (t *table) restyled(row, col, usual int) int {
	if t.before == nil || t.before.kept[row] == nil {
		return usual
	}
	if s, found := t.before.kept[row].styles[col]; found {
		return s
	}
	return usual
}

// look returns the style of a column's cells.
func (t *table) look(c SheetColumn) int {
	l := t.writer.looks
	switch {
	case c.Look == Money:
		return l.money()
	case c.Look == Budget:
		return l.number(0)
	case c.Look == Wrapped:
		return l.wrapped()
	case c.Quantity != units.Text:
		return l.quantity(c.Quantity)
	}
	return l.plain()
}

// put writes a row.
func (t *table) put(r Row) {
	if t.err != nil {
		return
	}
	t.rows++
	lines := 1
	for i, c := range t.Columns {
		t.cells[i] = excelize.Cell{StyleID: t.style[i]}
		t.fill(i, c, r)
		if text, is := t.cells[i].Value.(string); is && c.Look == Wrapped {
			lines = max(lines, wrappedLines(text, c.Width))
		}
	}
	key := t.key()
	t.sum(key)
	if t.before != nil {
		t.follow(key)
	}
	t.count(r)
	height := excelize.RowOpts{Height: min(float64(lines)*rowHeight, mostHeight)}
	t.err = t.stream.SetRow(cellName(1, t.rows), t.values, height)
}

// count counts the rows of the first zone, or of the first site where rows are of sites, which charts show.
func (t *table) count(r Row) {
	var ref calc.Ref
	switch {
	case r.Zone != nil:
		ref = r.Zone.Zone.Ref
	case r.Site != nil:
		ref = calc.Ref{SiteID: r.Site.Site.ID}
	default:
		return
	}
	if t.rows == 2 {
		t.first = calc.Ref{SiteID: ref.SiteID, SiteName: ref.SiteName, ZoneID: ref.ZoneID, ZoneName: ref.ZoneName}
	}
	if ref.SiteID == t.first.SiteID && ref.ZoneID == t.first.ZoneID {
		t.firstPoints++
		if r.Cost != nil && r.Cost.Total.Known || r.Alternative != nil && r.Alternative.Life.Known {
			t.firstPriced++
		}
	}
}

// follow finds the row of the run before with the same key, and takes over the formats that a person gave to its cells.
func (t *table) follow(key string) {
	same := t.before.rows[key]
	if len(same) == 0 {
		return
	}
	old := same[0]
	t.before.rows[key] = same[1:]
	t.moves.to[old] = t.rows
	if t.before.kept[old] == nil || t.before.kept[old].styles == nil {
		return
	}
	for i, at := range t.at {
		t.cells[i].StyleID = t.restyled(old, at, t.cells[i].StyleID)
	}
}

// key returns the key of the row that is being written.
func (t *table) key() string {
	parts := make([]string, len(t.keys))
	for k, i := range t.keys {
		parts[k] = t.said(i)
	}
	return strings.Join(parts, keyMark)
}

// said returns what a cell of the row that is being written says, as it is read again.
func (t *table) said(i int) string {
	switch v := t.cells[i].Value.(type) {
	case nil:
		return ""
	case string:
		return strings.TrimSpace(v)
	case float64:
		return strconv.FormatFloat(show.Significant(v, digits)+0, 'f', -1, 64)
	default:
		return fmt.Sprint(v)
	}
}

// sum takes the row that is being written into the sums.
func (t *table) sum(key string) {
	t.sums.rows++
	h := digest(fnvBasis, key)
	for i := range t.cells {
		t.sums.add(i, h, t.said(i), slices.Contains(t.keys, i))
	}
}

// fill puts a value into the cell of a column, in the reader's unit. What is blank, not a number or infinite leaves the cell empty.
func (t *table) fill(i int, c SheetColumn, r Row) {
	show := t.show()
	measured := func(v float64, q units.Quantity) { t.number(i, q.In(show.Units).FromBase(v), show.Decimals(q)) }
	switch v := c.Get(r).(type) {
	case nil:
	case string:
		t.text(i, v)
	case int:
		t.set(i, v)
	case float64:
		measured(v, c.Quantity)
	case units.Maybe[float64]:
		if v.Known {
			measured(v.Value, c.Quantity)
		}
	case units.Maybe[cost.Money]:
		if v.Known {
			t.set(i, v.Value.Main(show.Currency))
		}
	case Measured:
		t.cells[i].StyleID = t.writer.looks.among(show.Decimals(v.Quantity))
		measured(v.Value, v.Quantity)
	case Sum:
		decimals := cost.Decimals(show.Currency)
		t.cells[i].StyleID = t.writer.looks.among(decimals)
		t.number(i, float64(v), decimals)
	case Link:
		t.link(i, v)
	default:
		t.err = fmt.Errorf("column %s: a cell can't hold %T", c.Key, v)
	}
}

func (t *table) text(i int, v string) {
	if v == "" {
		return
	}
	if len(v) > textLimit {
		v = strings.ToValidUTF8(v[:textLimit-3], "") + "…"
	}
	t.set(i, v)
}

// number puts a number, in the reader's unit, into a cell that shows some decimals of it.
func (t *table) number(i int, v float64, decimals int) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return
	}
	if v < 0 && v*math.Pow10(decimals) > -0.5 {
		t.cells[i].StyleID = t.writer.looks.unsigned(t.cells[i].StyleID, decimals) // it would show −0
	}
	t.set(i, show.Significant(v, digits))
}

func (t *table) set(i int, v any) { t.cells[i].Value = v }

// link puts a text that leads somewhere into a cell. Beyond what the format allows it is a text alone.
func (t *table) link(i int, l Link) {
	t.text(i, l.Text)
	if l.Text == "" || len(t.links) >= mostLinks {
		return
	}
	t.cells[i].StyleID = t.writer.looks.link()
	t.linked[i] = true
	t.links = append(t.links, cellLinkAt{cellName(t.at[i], t.rows), l})
}

// linkKeys are the columns whose links are ours. A link in any other cell is a person's.
var linkKeys = []string{"pdf", "cell"}

// linksIn says whether the links in a column are ours.
func (t *table) linksIn(col int) bool {
	i := slices.Index(t.at, col)
	return i >= 0 && (t.linked[i] || slices.Contains(linkKeys, t.Columns[i].Key))
}

// relative escapes what a link to a file must not hold as it is.
func relative(file string) string {
	return strings.NewReplacer("%", "%25", " ", "%20", "#", "%23", "?", "%3F").Replace(file)
}

// close ends a sheet: marks, picture, table.
func (t *table) close() error {
	t.moves.newLast = t.rows
	if err := t.mark(); err != nil {
		return err
	}
	if err := t.draw(); err != nil {
		return err
	}
	if t.before == nil || t.before.table == nil {
		if err := t.addTable(); err != nil {
			return err
		}
	}
	return t.stream.Flush()
}

// addTable makes a table of the results, as far as every column has a heading.
func (t *table) addTable() error {
	last := 0
	theirs := t.beforeHeadings()
	for slices.Contains(t.at, last+1) || theirs[last+1] != "" {
		last++
	}
	if last == 0 || !slices.Contains(t.at[:], 1) {
		return nil
	}
	stripes := false
	t.tabled = true
	return t.stream.AddTable(&excelize.Table{Range: "A1:" + cellName(last, max(t.rows, 2)), Name: t.writer.source.freeTable(t.name), StyleName: tableStyle, ShowRowStripes: &stripes})
}

// wrappedLines estimates how many lines a text takes in a column.
func wrappedLines(text string, width float64) int {
	n := 0
	for line := range strings.SplitSeq(text, "\n") {
		n += max(1, int(math.Ceil(float64(utf8.RuneCountInString(line))*perWidth/width)))
	}
	return n
}

func cellName(column, row int) string {
	name, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		panic(err) // both come from our own counting
	}
	return name
}

// keyColumns lists the columns by which the rows of a sheet are told apart.
func (s sheet) keyColumns() []int {
	var out []int
	names := keysOf[s.Key]
	if names == nil {
		names = usualKeys
	}
	for i, c := range s.Columns {
		if slices.Contains(names, c.Key) {
			out = append(out, i)
		}
	}
	return out
}

// usualKeys are the columns that tell the rows of a sheet apart, as far as a sheet has them.
var usualKeys = []string{"site", "zone", "strategy", "winter", "outdoor", "alternative", "region", "item", "mark"}

// keysOf are those of sheets whose rows are told apart in another way.
var keysOf = map[string][]string{
	"loads":     {"site", "zone"},
	"piping":    {"site", "zone"},
	"electric":  {"site", "zone"},
	"summary":   {"site"},
	"findings":  {"code", "sheet", "cell", "site", "zone"},
	"basis":     {"topic", "site", "zone", "name"},
	"checklist": {"site", "zone", "code"},
	"changes":   {"site", "zone", "what"},
	"portfolio": {"part", "region", "winter", "site"},
}
