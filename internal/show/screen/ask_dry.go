package screen

func dry() asked {
	return asked{
		id: "dry", question: "Is it dry and clean enough?",
		codes:    []string{"oil-before-paint", "dryer-order", "receiver-without-drain", "wet-line-without-drip", "dead-end-without-drain", "line-may-freeze"},
		cautions: []string{"Shut off and vent a drain's line to zero before you open it up."},
		answer:   answerDry,
	}
}

// answerDry speaks from findings alone: water and dew points are not worked out yet.
func answerDry(in *inquiry) answer {
	return in.weighed(answer{mark: Unknown, words: "Not worked out yet."})
}
