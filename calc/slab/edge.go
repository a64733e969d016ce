package slab

// edgeBare and edgeInsulated are the heat loss of a slab's edge per length [W/(m·K)]; judgement. Factors of buildings would count the ground twice.
const (
	edgeBare      = 1.5
	edgeInsulated = 0.6
)

// EdgeLoss returns the heat that leaves through the edge of a slab, in W.
//
//	Q_edge = perimeter · ψ · (t_core − t_o)
//
//	ψ          1.5 W/(m·K) bare, 0.6 insulated: judgement
//	coreC      t_core, the slab at its design flux [°C]
//	outdoorC   t_o of the design hour [°C]
//
// Source: engineering method, section 2.
func EdgeLoss(perimeterM float64, insulated bool, coreC, outdoorC float64) float64 {
	psi := edgeBare
	if insulated {
		psi = edgeInsulated
	}
	return perimeterM * psi * (coreC - outdoorC)
}
