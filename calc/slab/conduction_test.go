package slab

import (
	"encoding/csv"
	"math"
	"math/cmplx"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"thawbook/calc/surface"
)

// bare and insulated are the two sections that were solved elsewhere (engineering method, section 2). No wall: the cases end at the pipe's surface.
func bare() Section {
	return Section{SlabM: 0.100, SlabWMK: 1.4, DepthM: 0.060, SpacingM: 0.200, OuterM: 0.020, GroundC: 5, SensorDepthM: 0.025, SlabHeatCapacityJM3: 2.1e6}
}

func insulated() Section {
	return Section{SlabM: 0.150, SlabWMK: 1.4, DepthM: 0.075, SpacingM: 0.300, OuterM: 0.025, GroundC: 5, SensorDepthM: 0.025, InsulationM2KW: 0.9, SlabHeatCapacityJM3: 2.1e6}
}

func answer(t *testing.T, s Section, up float64) Solution {
	t.Helper()
	u, err := Unitary(s.Geometry())
	require.NoError(t, err)
	out, err := u.At(s, up)
	require.NoError(t, err)
	return out
}

// TestReferenceCases: two independent solutions in two dimensions, engineering method, section 2: pipe to mean surface within 1 %, back loss 3 %,
// sensor 0.1 K; the printed digit stands for half a unit more on either side of the surface.
func TestReferenceCases(t *testing.T) {
	for _, tt := range []struct {
		name                            string
		section                         Section
		pipe, back, least, most, sensor float64
	}{
		{"bare, 200 mm", bare(), 21.5, 11.7, -0.7, 2.2, 3.7},
		{"insulated, 300 mm", insulated(), 30.9, 7.0, -1.7, 3.5, 2.5},
	} {
		t.Run(tt.name, func(t *testing.T) {
			out := answer(t, tt.section, 300)
			t.Logf("pipe %.2f (%g), back %.2f (%g), surface %.2f to %.2f (%g to %g), sensor %.2f (%g), %d nodes", out.PipeSurfaceC.Value, tt.pipe, out.BackWM2, tt.back,
				out.SurfaceMinC.Value, out.SurfaceMaxC.Value, tt.least, tt.most, out.SensorC.Value, tt.sensor, out.Unit.Nodes)
			assert.InEpsilon(t, tt.pipe-surface.Film(), out.PipeSurfaceC.Value-surface.Film(), 0.01)
			assert.InEpsilon(t, tt.back, out.BackWM2, 0.03)
			assert.InDelta(t, tt.sensor, out.SensorC.Value, 0.1)
			assert.InDelta(t, tt.least, out.SurfaceMinC.Value, 0.1)
			assert.InDelta(t, tt.most, out.SurfaceMaxC.Value, 0.1)
			assert.True(t, out.Striped)
		})
	}
}

// deep is a row of pipes far above an underside that passes no heat, in a medium of conductivity 1.
func deep(outer, spacing, depth float64) Geometry {
	return Geometry{SlabM: depth + 3*spacing, SlabWMK: 1, DepthM: depth, SpacingM: spacing, OuterM: outer, InsulationM2KW: 1e12, SensorDepthM: 0.025}
}

// shape returns the heat of one pipe per length, kelvin and conductivity, below an isothermal plane.
func shape(t *testing.T, g Geometry) float64 {
	t.Helper()
	u, err := unitary(g, 1e9, standard)
	require.NoError(t, err)
	return u.UpWM2K * g.SpacingM
}

// rowFormula is the row of equal cylinders below an isothermal plane: Hahne and Grigull 1975.
func rowFormula(outer, spacing, depth float64) float64 {
	return 2 * math.Pi / math.Log(2*spacing/(math.Pi*outer)*math.Sinh(2*math.Pi*depth/spacing))
}

// rowExact is the same row without approximation: a line source, its image and their multipoles, all periodic, fitted to the circle.
func rowExact(t *testing.T, outer, spacing, depth float64) float64 {
	t.Helper()
	const poles, points = 24, 120
	r := outer / 2
	pole := func(m int, z complex128) float64 {
		zeta := complex(math.Pi/spacing, 0) * (z - complex(0, depth))
		if m == 0 {
			return -math.Log(cmplx.Abs(cmplx.Sin(zeta)))
		}
		w := cmplx.Pow(complex(math.Pi*r/spacing, 0)/cmplx.Tan(zeta), complex(float64(m), 0))
		if m%2 == 1 {
			return imag(w)
		}
		return real(w)
	}
	a, b := mat.NewDense(points, poles+1, nil), mat.NewDense(points, 1, nil)
	for i := range points {
		angle := math.Pi*(float64(i)+0.5)/points - math.Pi/2
		z := complex(r*math.Cos(angle), depth+r*math.Sin(angle))
		for m := range poles + 1 {
			a.Set(i, m, pole(m, z)-pole(m, cmplx.Conj(z)))
		}
		b.Set(i, 0, 1)
	}
	var x, left mat.Dense
	require.NoError(t, x.Solve(a, b))
	left.Mul(a, &x)
	for i := range points {
		require.InDelta(t, 1, left.At(i, 0), 1e-5, "the circle has one temperature")
	}
	return 2 * math.Pi * x.At(0, 0)
}

// TestRowOfCylinders compares with the row below an isothermal plane: within 0.5 % of the exact row everywhere, of the closed formula where thin
// pipes lie neither shallow nor close (D/z ≤ 0.2, z/s ≥ 0.2, D/s ≤ 0.08), and at most 2.5 % above the formula beyond, down to usual spacings.
// The formula itself is low by 0.58 % at D/z 0.2, z/s 0.5: the bounds on depth alone do not hold it to 0.5 %.
func TestRowOfCylinders(t *testing.T) {
	for _, tt := range []struct {
		outer, spacing, depth float64
		formula               float64 // agreement asked of the closed formula; 0: none
	}{
		{0.006, 0.100, 0.050, 0.005}, {0.010, 0.200, 0.050, 0.005}, {0.010, 0.250, 0.050, 0.005}, {0.012, 0.200, 0.075, 0.005}, {0.012, 0.300, 0.060, 0.005},
		{0.016, 0.300, 0.080, 0.005}, {0.020, 0.400, 0.100, 0.005}, {0.020, 0.200, 0.100, 0.025}, {0.020, 0.150, 0.060, 0.025}, {0.020, 0.300, 0.075, 0.025},
		{0.0222, 0.3048, 0.0762, 0.025}, {0.025, 0.250, 0.100, 0.025}, {0.032, 0.400, 0.060, 0.025}, {0.032, 0.100, 0.041, 0}, {0.032, 0.096, 0.100, 0},
		{0.006, 0.025, 0.050, 0}, {0.032, 0.064, 0.041, 0},
	} {
		got, exact, formula := shape(t, deep(tt.outer, tt.spacing, tt.depth)), rowExact(t, tt.outer, tt.spacing, tt.depth), rowFormula(tt.outer, tt.spacing, tt.depth)
		t.Logf("D %g s %g z %g (D/z %.2f, z/s %.2f): S/L %.5f, exact %.5f: %+.2f %%, formula %.5f: %+.2f %%", tt.outer, tt.spacing, tt.depth, tt.outer/tt.depth, tt.depth/tt.spacing,
			got, exact, 100*(got/exact-1), formula, 100*(got/formula-1))
		assert.InEpsilon(t, exact, got, 0.005)
		if tt.formula > 0 {
			assert.InEpsilon(t, formula, got, tt.formula)
		}
	}
}

// TestPublishedRows: the rows that were evaluated elsewhere.
func TestPublishedRows(t *testing.T) {
	f, err := os.Open("../../testdata/published/row-of-pipes.tsv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = '\t'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		var v [4]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
		}
		require.NotEmpty(t, row[5], "reference row without a source")
		require.InDelta(t, v[3], rowFormula(v[0], v[1], v[2]), 5e-6)
		got := shape(t, deep(v[0], v[1], v[2]))
		assert.True(t, got > v[3] && got < 1.025*v[3], "S/L %g, formula %g, which is low by up to 2.2 %% there", got, v[3])
	}
}

// TestSinglePipe: pipes 40 depths apart don't feel each other: S = 2π / acosh(2z/D), Incropera, Fundamentals of Heat and Mass Transfer, table 4.1. The
// last is an example of Janna, Engineering Heat Transfer (3.2): 10.74 in, 18 in deep, 75 °F, 0.072 Btu/h·ft·°F: 18.05 Btu/h·ft.
func TestSinglePipe(t *testing.T) {
	for _, tt := range []struct{ outer, depth float64 }{{0.020, 0.060}, {0.032, 0.045}, {0.006, 0.050}, {0.025, 0.100}, {10.74, 18}} {
		got, want := shape(t, deep(tt.outer, 40*tt.depth, tt.depth)), 2*math.Pi/math.Acosh(2*tt.depth/tt.outer)
		t.Logf("D %g z %g: S/L %.5f, single pipe %.5f: %+.2f %%", tt.outer, tt.depth, got, want, 100*(got/want-1))
		assert.InEpsilon(t, want, got, 0.005)
		if tt.depth == 18 {
			assert.InEpsilon(t, 18.05, got*0.072*75, 0.005)
		}
	}
}

// TestRefinement cuts every cell in two, and again: the error falls by four each time, and the standard grid is within 0.2 % of its limit.
func TestRefinement(t *testing.T) {
	paved := insulated()
	paved.SurfaceM, paved.SurfaceWMK, paved.BeddingM, paved.BeddingWMK, paved.SpacingM = 0.060, 1.2, 0.030, 0.7, 0.200
	cable := insulated()
	cable.OuterM, cable.SpacingM, cable.DepthM = 0.006, 0.100, 0.050
	for name, s := range map[string]Section{"bare": bare(), "insulated": insulated(), "pipe in the bedding": paved, "cable": cable} {
		var pipe, sensor [3]float64
		for i, cut := range []int{1, 2, 4} {
			m := standard
			m.cut = cut
			u, err := unitary(s.Geometry(), topFilm, m)
			require.NoError(t, err)
			out, err := u.At(s, 300)
			require.NoError(t, err)
			pipe[i], sensor[i] = out.PipeSurfaceC.Value, out.SensorC.Value
		}
		order := math.Log2((pipe[1] - pipe[0]) / (pipe[2] - pipe[1]))
		limit := pipe[2] + (pipe[2]-pipe[1])/3
		t.Logf("%s: pipe %.4f, %.4f, %.4f, order %.2f, limit %.4f; sensor %.4f, %.4f, %.4f", name, pipe[0], pipe[1], pipe[2], order, limit, sensor[0], sensor[1], sensor[2])
		assert.InDelta(t, 2, order, 0.15)
		assert.InEpsilon(t, limit-surface.Film(), pipe[0]-surface.Film(), 0.002)
		assert.InDelta(t, sensor[2], sensor[0], 0.02)
	}
}

// TestRowTermOfTwoDimensions compares the resistance between the pipe and its level with R_x of Koschenz and Lehmann 2000 (in EN 15377), corrected
// for a near surface with a film: s/(2πλ) {ln(s/πD) − Σ [(as − 2πn)/(as + 2πn)] exp(−4πnz/s)/n}, a = 25/λ; the plain form where z > 0.3 s. The
// published form takes the pipe as a line: a real pipe also shortens the way to the surface, by more the thicker it is for its spacing. Pipe to mean
// surface is 0.3 to 1.2 % less here; within 1 % for D/s up to 0.1.
func TestRowTermOfTwoDimensions(t *testing.T) {
	for _, tt := range []struct{ outer, spacing, depth, wmk float64 }{
		{0.020, 0.250, 0.100, 1.8}, {0.025, 0.200, 0.100, 1.8}, {0.020, 0.200, 0.060, 1.4}, {0.025, 0.300, 0.075, 1.4}, {0.020, 0.150, 0.075, 1.4}, {0.020, 0.225, 0.075, 1.0}, {0.006, 0.100, 0.050, 1.4},
	} {
		g := deep(tt.outer, tt.spacing, tt.depth)
		g.SlabWMK = tt.wmk
		u, err := Unitary(g)
		require.NoError(t, err)
		star := u.star()
		row, sum, a := star.pipe+star.up-1/topFilm-tt.depth/tt.wmk, 0.0, topFilm/tt.wmk*tt.spacing
		for n := 1.0; n <= 10; n++ {
			sum -= (a - 2*math.Pi*n) / (a + 2*math.Pi*n) * math.Exp(-4*math.Pi*n*tt.depth/tt.spacing) / n
		}
		plain := tt.spacing * math.Log(tt.spacing/(math.Pi*tt.outer)) / (2 * math.Pi * tt.wmk)
		corrected := plain + tt.spacing*sum/(2*math.Pi*tt.wmk)
		total := tt.depth/tt.wmk + corrected
		t.Logf("D %g s %g z %g λ %g: row %.5f, plain %.5f: %+.1f %%, corrected %.5f: %+.1f %%; pipe to surface %+.2f %%; level %.5f, 1-D %.5f", tt.outer, tt.spacing, tt.depth, tt.wmk, row, plain, 100*(row/plain-1),
			corrected, 100*(row/corrected-1), 100*((row+tt.depth/tt.wmk)/total-1), star.up-1/topFilm, tt.depth/tt.wmk)
		tolerance := 0.01
		if tt.outer/tt.spacing > 0.1 {
			tolerance = 0.015
		}
		assert.InEpsilon(t, total, row+tt.depth/tt.wmk, tolerance, "pipe to mean surface")
		assert.Less(t, row+tt.depth/tt.wmk, total)
	}
}

// TestHandbookRule: mean fluid about 0.5 q + t_f in °F and Btu/h·ft² (0.088 m²·K/W) for 20 to 25 mm pipe at 300 mm in concrete about 75 mm deep, within
// 20 %: ASHRAE Handbook, HVAC Applications, eq. 14, from memory. Conductivity 1.4 W/m·K lies above it, 1.73 below, to the pipe's surface. One row is
// outside: pipe of 22.2 mm 76 mm deep in 1.4 W/m·K lies 23 % above. The rule is met there at 1.72 W/m·K.
func TestHandbookRule(t *testing.T) {
	const rule = 0.088
	for _, tt := range []struct{ outer, depth, wmk, least, most float64 }{
		{0.0222, 0.0762, 1.4, 0.20, 0.25}, {0.0254, 0.0762, 1.4, 0, 0.20}, {0.0222, 0.0635, 1.4, 0, 0.20},
		{0.0222, 0.0762, 1.73, -0.20, 0}, {0.0254, 0.0762, 1.73, -0.20, 0}, {0.0222, 0.0635, 1.73, -0.20, 0},
	} {
		s := insulated()
		s.OuterM, s.SpacingM, s.DepthM, s.SlabWMK = tt.outer, 0.3048, tt.depth, tt.wmk
		out := answer(t, s, 400)
		off := (out.PipeSurfaceC.Value-surface.Film())/400/rule - 1
		t.Logf("D %g z %g k %g: %+.0f %% of the rule's %g m²·K/W", tt.outer, tt.depth, tt.wmk, 100*off, rule)
		assert.True(t, off >= tt.least && off <= tt.most, "%g", off)
	}
}

// TestBackLossRange: the published range of back and edge losses is 4 to 50 % of the flux, about 20 % for standard construction with ground of 40 °F
// (4.4 °C) 24 in down (ASHRAE Handbook, HVAC Applications, from memory). Bare ground and a soffit lie in it. The back loss alone into insulated ground
// or a heated room lies below 4 %: the ground's foot is 1.0 m down and the edge is counted apart.
func TestBackLossRange(t *testing.T) {
	for _, tt := range []struct {
		name       string
		support    Support
		insulation float64
		inside     bool
	}{
		{"ground", OnGround, 0, true}, {"insulated ground", OnGround, 0.9, false}, {"open air, bare", OpenAir, 0, true},
		{"open air, insulated", OpenAir, 0.9, true}, {"heated space, insulated", HeatedSpace, 0.9, false},
	} {
		s := insulated()
		s.SpacingM, s.OuterM, s.Support, s.InsulationM2KW, s.GroundC, s.OutdoorC = 0.225, 0.020, tt.support, tt.insulation, 4.4, -8
		out := answer(t, s, 400)
		t.Logf("%s: back loss %.1f %% of 400 W/m²", tt.name, 100*out.BackShare)
		assert.Equal(t, tt.inside, out.BackShare >= 0.04, tt.name)
		assert.True(t, out.BackShare > 0 && out.BackShare <= 0.50, tt.name)
	}
}
