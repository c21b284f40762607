package screen

func dry() asked {
	return asked{
		id: "dry", question: "Is it dry and clean enough?",
		codes:    []string{"oil-before-paint", "dryer-order", "receiver-without-drain", "wet-line-without-drip", "dead-end-without-drain"},
		cautions: []string{"Shut off and vent a drain's line to zero before you open it up."},
		answer:   answerDry,
	}
}

// answerDry speaks from findings alone: water and dew points are not worked out yet.
func answerDry(in *inquiry) answer {
	if f := in.worst(); f != nil {
		return answer{mark: NotYet, words: "Not yet: " + f.Title}
	}
	if n := len(in.found); n > 0 {
		return answer{mark: Unknown, words: plural(n, "point wants", "points want") + " a look; water and dew points are not worked out yet."}
	}
	return answer{mark: Unknown, words: "Not worked out yet."}
}
