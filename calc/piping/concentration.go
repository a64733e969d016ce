package piping

const (
	// freezeMarginK is how far below the extreme minimum a fluid must freeze [K]. Source: common practice, 5 to 6 K.
	freezeMarginK = 5.0
	// withoutMinimum is the share by volume where no extreme minimum is known. Source: judgement, upper end of the usual 35 to 50 %.
	withoutMinimum = 0.50
	// burstLeastShare and burstC: propylene glycol of this share by volume and more keeps a pipe from bursting to about this temperature, as slush that no
	// pump moves. Source: common practice, medium confidence. It never counts as protection.
	burstLeastShare = 0.30
	burstC          = -29.0
)

// shares are the concentrations by volume that are proposed, from the least. Source: common practice.
var shares = [...]float64{0.30, 0.35, 0.40, 0.45, 0.50, 0.55}

// Propose returns the least of 30, 35 … 55 % by volume whose freezing point is not above needC, in °C. Where none is, it returns 55 % and false.
//
// Source: common practice; freezing points by Melinder 2010.
// Errors: ErrFluid where the glycol is unknown.
func Propose(fluid Fluid, needC float64) (byVolume float64, enough bool, err error) {
	for _, share := range shares {
		m, err := byVolumeOf(fluid, share)
		if err != nil {
			return 0, false, err
		}
		if m.FreezeC <= needC {
			return share, true, nil
		}
	}
	return shares[len(shares)-1], false, nil
}

// byVolumeOf returns the mixture of a share by volume.
func byVolumeOf(fluid Fluid, byVolume float64) (Mixture, error) {
	mass, err := MassShare(fluid, byVolume)
	if err != nil {
		return Mixture{}, err
	}
	return Mix(fluid, mass)
}
