package screen

// The questions that go out to the shop in a pocket: build, prove, keep.

func howToBuild() asked {
	return asked{
		id: "build", question: "How do I build it?", list: "build",
		cautions: []string{
			"Work on a line only when it is shut off, locked and vented, and its gauge shows zero.",
			"Wear eye and ear protection. No plastic pipe that shatters, such as PVC.",
			"A licensed electrician connects the compressor. Local codes and the makers' instructions rule.",
		},
		answer: answerBuild,
	}
}

func doesItHold() asked {
	return asked{
		id: "prove", question: "Does it hold?", list: "prove",
		cautions: []string{
			"A line under test holds energy: everybody keeps the distance, the pressure goes up in steps, nobody touches a joint above the first look.",
			"Nothing is mended under pressure: isolate, lock, vent, see zero first.",
			"Receivers and relief valves come under pressure-vessel law. What is not listed here was not checked.",
		},
		answer: answerProve,
	}
}

func eachWeek() asked {
	return asked{
		id: "keep", question: "What do I do each week?", list: "keep",
		cautions: []string{
			"Isolate, lock, vent and see zero before anything is opened; the compressor's electrics are an electrician's work.",
			"Intervals here are common practice: the makers' instructions and the law come first.",
		},
		answer: answerKeep,
	}
}
