package check

// All lists the checks. Those that can hurt people stand first, then the
// supply, the flow, the water, the order of things and how they are held.
func All() []Check {
	return []Check{
		noReliefValve,
		reliefOverRating,
		overRating,
		stockNotFit,
		couplersDoNotMate,
		overPressureAtTool,
		blowGunUnlimited,
		noWayToVent,
		noAnswer,
		shutOff,
		notModelled,
		shortOfPressure,
		readingDiffers,
		neverFull,
		shortInTheDay,
		motorOverworked,
		supplyShort,
		regulatorStarved,
		regulatorPointless,
		undersizedMain,
		velocity,
		takesMoreThanRated,
		setHigherThanNeeded,
		thinHose,

		oilBeforePaint,
		waterClassMissed,
		dryerOverloaded,
		desiccantSpentSoon,
		dryerOrder,
		receiverWithoutDrain,
		wetLineWithoutDrip,
		lineMayFreeze,
		deadEndWithoutDrain,

		noIsolatingValve,
		noFlexibleLink,
		noUnion,
		joiningMixed,
		bendTooTight,
		heldTooHard,
		looseOutlet,
		mixedProfiles,
		referencesMixed,
		pricesMixed,
		missingData,
	}
}
