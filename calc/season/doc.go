// Package season is the winter hour by hour: what each way of sensing and control does, costs in heat and leaves on the ground.
//
// # The column
//
// One dimension, per m²: the layers of the pavement, a sheet of insulation R at the underside, and 3 m of ground to a foot at the ground's
// temperature (or a film to outdoor air or to a heated space). Nodes stand at the surface, at the sensor, at the pipe level and at the underside.
//
//	C_i (T_i' − T_i)/Δt = G_{i−1} (T_{i−1}' − T_i') + G_i (T_{i+1}' − T_i') + q_i      implicit
//	q_pipe = min(q_installed, (t_fluid,most − T_pipe)/R_fluid)  while heat is on
//	z_sensor: the depth that has R_core above it, so that the sensor means what it means in calc/setpoint
//
// The column's surface is the mean over the pavement; it carries no edge. The edge's heat is found from its degree hours.
//
// # The surface
//
// On the surface lie snow, ice (what froze from water or frost) and water, in mm of water.
//
//	C dT/dt = G (T_1 − T) − (1 − c) q_bare − c q_snow − μ [h_if + (c_w − c_i) t_m]
//	q_bare = h_c (T − t_a) + ε σ (T⁴ − T_MR⁴) − α G_sun + h_fg m_bare
//	q_snow = (T − t_top)/R_snow = h_c (t_top − t_a) + ε σ (t_top⁴ − T_MR⁴) − α G_sun + h_sub m_top,  t_top ≤ 0 °C
//	m = h_m ρ_a (W_s − W_a),  h_m ρ_a = (Pr/Sc)^⅔ h_c / c_p
//
//	c       covered share, min(1, solid/1 mm)
//	C       upper half cell of the slab, what lies on it and what falls in the step
//	μ       melts or freezes: snow and ice, or water, hold T at t_m = 0 °C as long as they last; melting takes the heat left after losses
//	R_snow  ρ = 100 kg/m³, rising to 500 with the liquid share; k = 0.021 + 2.5e−6 ρ² W/(m·K). Once its top is at 0 °C, what comes in there goes to
//	        the water that seeps down
//	h_c     the greater of the plate relation and natural convection, calc/surface
//	T_MR    the file's infrared, also while it snows; else cloud and humidity by calc/surface
//	ε, α    0.9 and 0.6 bare, 0.97 and 0.3 snow
//	m_bare  from the wet share, min(1, water/0.1 mm); dew and frost on all of the bare share
//	W_s     saturated over water at 0 °C and above, over ice below
//
// Water above a film of 0.3 mm and a tenth of the snow's mass drains with a time constant of 10 min. Snow falls at min(t_a, 0), rain at max(t_a, 0).
//
// # Control
//
// A strategy is a row: what begins heat, what ends it, what limits the slab. With a slab sensor heat goes on and off ± 0.5 K about the outdoor reset
// of calc/setpoint, melting and idling; without one the whole output runs. The in-pavement detector begins on more than 0.05 mm of solid, or of water
// while the surface is below 2 °C, and senses dry below 0.02 mm of both; then its off-delay runs. The aerial detector sees hours of at least 0.1 mm
// of snow. Above the warm-weather shut-off nothing heats, unless more than 0.05 mm of solid lies. Below the lockout nothing melts.
//
// # Steps
//
// Five minutes while anything lies or falls or calls, an hour else. Halving every step moves the energy of a strategy by less than 1 % (a test).
// A typical year's winter begins with an unheated column spun up over the 92 days before the season: from 1 July for 1 October.
//
// # Books
//
// Energy: what was put in, left at the surface and at the foot, and was carried by snow, rain, melt water and vapour, against what is stored. Water:
// what fell against what lies, drained and left as vapour. Both residuals stand in every Result; ClosureLimit is what they may be.
//
// # Delays
//
// The timer after the last snow is the 90th percentile, over the storms of this site, of the time from the last snow to dry, in the run that heats
// from the first snow until dry. The off-delay after dry is a quarter of the time a full film dries in (90th percentile): the last place to dry may
// hold a quarter more. That quarter is judgement.
//
// # Other winters, and the storm that is drawn
//
// What a strategy's bill rests on stands for each winter by itself in Result.Years. The only winter of a station is run again with every hour's snow
// times LessSnow and MoreSnow, from the same spun-up column. Result.Storm is a window of the same run, hour by hour: of the storm whose snow water
// nine in ten do not exceed, or of Input.Window.
//
// # Not in it
//
// Drifts, traffic, ploughing, salt, freezing of the soil, shade, and any difference along the surface between the pipes.
//
// Sources: engineering method, section 4: states of the surface after Rees, Spitler and Xiao 2002, ASHRAE Transactions 108(2); balance of ASHRAE
// Handbook, HVAC Applications (2015) ch. 51; sky and film coefficients as calc/surface; the conductivity of snow after Yen 1981, from memory.
package season
