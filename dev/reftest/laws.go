package reftest

import "slices"

// Laws lists every evaluator, in the order of the page.
func Laws() []Law {
	return slices.Concat(
		dryLaws(), atmosphereLaws(), saturationLaws(), moistLaws(), referenceLaws(),
		frictionLaws(), lineLaws(), orificeLaws(), componentLaws(), networkLaws(),
		receiverLaws(), testLaws(), powerLaws(), demandLaws(), waterLaws(), energyLaws(),
		growthLaws(),
		dimensionLaws(), ratingLaws(), spacingLaws(), fittingLaws(), couplerLaws(), toolLaws(), sizeLaws(),
	)
}
