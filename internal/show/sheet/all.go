package sheet

// All lists the sheets in the order of the job book.
func All() []Sheet {
	return []Sheet{
		planSheet(),
		wallsSheet(),
		marksSheet(),
		isometricSheet(),
		diagramSheet(),
		dropsSheet(),
		jointsSheet(),
		cutsSheet(),
		orderSheet(),
		shoppingSheet(),
		quotationSheet(),
		variationSheet(),
		pressuresSheet(),
		testSheet(),
		labelsSheet(),
		upkeepSheet(),
		cautionsSheet(),
		sourcesSheet(),
	}
}
