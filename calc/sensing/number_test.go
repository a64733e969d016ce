package sensing_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"thawbook/calc/facts"
	"thawbook/calc/sensing"
)

// placed chooses for a zone of these sides.
func placed(t testing.TB, text string, parts ...sensing.Part) sensing.Choice {
	t.Helper()
	return sensing.Choose(table(t, "sensing"), zoneOf(t, text, parts...))
}

func zoneOf(t testing.TB, text string, parts ...sensing.Part) sensing.Input {
	t.Helper()
	in := input(factsOf(t, text), parts)
	in.Pavement = pavementOf(t, text, in.Facts)
	return in
}

func numberOf(c sensing.Choice, d sensing.Device) sensing.Number {
	for _, n := range c.Numbers {
		if n.Device == d {
			return n
		}
	}
	return sensing.Number{}
}

func codesOf(list []sensing.Reason) []string {
	var codes []string
	for _, r := range list {
		codes = append(codes, r.Code)
	}
	return codes
}

func TestNumberOfDetectors(t *testing.T) {
	for _, tt := range []struct {
		name, zone     string
		wanted, placed int
		reasons        []string
		source         string
	}{
		{"a walk at the limit", "stage=new pour; use=walk; sides=40x25", 1, 1, []string{"number-by-area-walked"}, "practice: 1,000 m² on walks"},
		{"a walk just above it", "stage=new pour; use=walk; sides=40.1x25", 2, 2, []string{"number-by-area-walked"}, "practice: 1,000 m² on walks"},
		{"a drive at the limit", "stage=new pour; use=drive; sides=50x40", 1, 1, []string{"number-by-area-driven"}, "practice: 2,000 m² where vehicles drive"},
		{"a use that is not told", "stage=new pour; sides=50x40", 2, 2, []string{"number-by-area-walked"}, "the stricter limit where nothing is told"},
		{"a far end", "stage=new pour; use=drive; sides=120x4", 2, 2, []string{"number-by-area-driven", "number-by-reach"}, "practice: within 60 to 100 m; by hand √(60² + 4²) = 60.1 < 80"},
		{"within reach", "stage=new pour; use=drive; sides=79x4", 1, 1, []string{"number-by-area-driven"}, "by hand √(79² + 4²) = 79.1 < 80"},
		{"sun and shade", "stage=new pour; use=plaza; sides=30x20; shaded=0.5; sun=first", 2, 2, []string{"number-by-area-walked", "number-sun-and-shade"}, "practice: more than a quarter in shade"},
		{"snow carried in", "stage=new pour; use=plaza; sides=30x20; wind-blown=yes", 2, 2, []string{"number-by-area-walked", "number-tracked-snow"}, "judgement"},
		{"all of it", "stage=new pour; use=plaza; sides=60x30; shaded=0.5; sun=mixed; wind-blown=yes; critical=yes; mast=no", 5, 5,
			[]string{"number-by-area-walked", "number-sun-and-shade", "number-tracked-snow", "number-critical-second"}, "1,800 m² take two, and one for each of three causes"},
		{"all of it on a poured slab", "stage=existing heated; housing=yes; use=plaza; sides=60x30; shaded=0.5; sun=mixed; wind-blown=yes", 4, 1,
			[]string{"number-by-area-walked", "number-sun-and-shade", "number-tracked-snow", "only-where-cast-in"}, "one housing is cast in"},
		{"what to know", "stage=new pour; slope=steep; obstacle=near; overhang=yes; salt=yes; sides=30x10", 1, 1,
			[]string{"number-by-area-walked", "number-steep-part", "number-lee-part", "number-covered-part", "number-salted-part"}, "practice: parts that want a zone of their own"},
		{"works today", "stage=existing heated; control now=in-pavement detector", 1, 1, []string{"number-by-area-walked", "there-today"}, "what works is used"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NotEmpty(t, tt.source)
			n := numberOf(placed(t, tt.zone), sensing.PavementDetector)
			assert.Equal(t, tt.wanted, n.Wanted, tt.source)
			assert.Equal(t, tt.placed, n.Placed, tt.source)
			assert.Equal(t, tt.reasons, codesOf(n.Reasons))
		})
	}
}

// TestEveryNumberRowSpeaks holds that each row of the table of numbers is heard in a situation.
func TestEveryNumberRowSpeaks(t *testing.T) {
	heard := map[string]bool{}
	for _, s := range situations(t) {
		for _, n := range sensing.Choose(table(t, "sensing"), s.in).Numbers {
			for _, code := range codesOf(n.Reasons) {
				heard[code] = true
			}
		}
	}
	for _, r := range table(t, "numbers").Rows {
		assert.True(t, heard[r.Effects[facts.Code]], "line %d (%s) is never heard", r.Line, r.Effects[facts.Code])
	}
}

// TestNumbersCoverTheZone holds over rectangles of every shape that the detectors are as many as area and reach ask for, never fewer for a larger
// zone of one shape, and that no place of the rectangle lies farther from its nearest detector than the reach.
func TestNumbersCoverTheZone(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	for range 150 {
		width := 1 + 99*random.Float64()
		length := width * (1 + 30*random.Float64()*random.Float64())
		zone := fmt.Sprintf("stage=new pour; use=walk; sides=%fx%f", length, width)
		c := placed(t, zone)
		n := numberOf(c, sensing.PavementDetector)
		assert.GreaterOrEqual(t, n.Wanted, int(math.Ceil(length*width/1000-1e-9)), zone)
		larger := numberOf(placed(t, fmt.Sprintf("stage=new pour; use=walk; sides=%fx%f", 1.5*length, 1.5*width)), sensing.PavementDetector)
		assert.GreaterOrEqual(t, larger.Wanted, n.Wanted, zone)
		for range 30 {
			x, y := random.Float64()*length, random.Float64()*width
			nearest := math.Inf(1)
			for _, m := range marksOf(c, sensing.PavementDetector) {
				nearest = min(nearest, math.Hypot(x-m.Along*length, y-m.Across*width))
			}
			assert.LessOrEqual(t, nearest, 80.0, "%s at %.1f, %.1f", zone, x, y)
		}
	}
}

func TestOtherDevices(t *testing.T) {
	c := placed(t, "stage=new pour; critical=yes; use=helistop; sides=60x60")
	assert.Equal(t, 1, numberOf(c, sensing.AerialDetector).Wanted, "one looks at the sky for the zone")
	assert.Equal(t, 2, numberOf(c, sensing.SlabSensor).Placed, "a spare on a critical area")
	c = placed(t, "stage=existing heated; critical=yes; housing=yes; slab sensor=yes; mast=yes; control now=aerial detector")
	assert.Equal(t, sensing.Number{Device: sensing.SlabSensor, Wanted: 1, Placed: 1, There: 1, Reasons: []sensing.Reason{{Code: "there-today", Facts: []string{"control now", "slab sensor"}}}},
		numberOf(c, sensing.SlabSensor))
	assert.Equal(t, 1, numberOf(c, sensing.AerialDetector).There)
	assert.Zero(t, numberOf(c, sensing.PavementDetector).There, "a housing is no detector")
}

// TestNumbersWithoutATable holds that one of each is taken where no table is given, and none where the kit is empty.
func TestNumbersWithoutATable(t *testing.T) {
	in := zoneOf(t, "stage=new pour; sides=60x60")
	in.Numbers = facts.Table{}
	c := sensing.Choose(table(t, "sensing"), in)
	assert.Equal(t, 1, numberOf(c, sensing.PavementDetector).Wanted)
	assert.Empty(t, sensing.Choose(facts.Table{}, in).Numbers)
}

func TestCheckNumbersTellsWhatIsWrong(t *testing.T) {
	const head = "existing\t->device\t->effect\t->number\t->place\t->code\n"
	for _, tt := range []struct{ name, rows, want string }{
		{"device", "\tmast\tnote\t\t\ta\n", `own: line 2: "mast" is no device`},
		{"effect", "\taerial detector\tmore\t\t\ta\n", `own: line 2: "more" is none of the effects area, reach, add, note`},
		{"area", "\taerial detector\tarea\tlarge\t\ta\n", `own: line 2: "large" is no area from 50 to 100000 m²`},
		{"area that is none", "\taerial detector\tarea\tNaN\t\ta\n", `"NaN" is no area`},
		{"reach", "\taerial detector\treach\t3\t\ta\n", `own: line 2: "3" is no distance from 10 to 10000 m`},
		{"added", "\taerial detector\tadd\t1.5\tother end\ta\n", `own: line 2: "1.5" is no whole number from 1 to 20`},
		{"place", "\taerial detector\tadd\t1\tnorth\ta\n", `own: line 2: "north" is none of the places sunned part, other end, other side, beside`},
		{"code", "\taerial detector\tnote\t\t\t\n", "own: line 2: no code"},
		{"dead", "\taerial detector\tarea\t900\t\ta\nyes\taerial detector\tarea\t800\t\tb\n", "own: line 3: never decides: line 2 holds whenever it does"},
		{"sound", "yes\taerial detector\tarea\t900\t\ta\n\taerial detector\tarea\t800\t\tb\n\taerial detector\treach\t80\t\tc\n", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			read, err := facts.Parse("own", strings.NewReader(head+tt.rows))
			require.NoError(t, err)
			if err = sensing.CheckNumbers(read); tt.want == "" {
				assert.NoError(t, err)
			} else {
				assert.ErrorContains(t, err, tt.want)
			}
		})
	}
}

func marksOf(c sensing.Choice, d sensing.Device) []sensing.Mark {
	if c.Plan == nil {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(c.Plan.Marks), func(m sensing.Mark) bool { return m.Device != d })
}
