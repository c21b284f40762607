package screen

// The questions that nothing answers yet. Each says so.

func build() asked {
	return asked{
		id: "build", question: "How do I build it?",
		cautions: []string{"Work on a line only when it is shut off, locked and vented to zero."}, answer: later,
	}
}

func prove() asked {
	return asked{
		id: "prove", question: "Does it hold?",
		cautions: []string{"A line under test holds energy: keep your distance, raise the pressure in steps."}, answer: later,
	}
}

func keep() asked {
	return asked{id: "keep", question: "What do I do each week?", answer: later}
}

func later(*inquiry) answer { return answer{mark: Unknown, words: "Not worked out yet."} }
