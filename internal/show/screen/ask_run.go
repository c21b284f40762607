package screen

func run() asked {
	return asked{
		id: "run", question: "What does it cost to run?", list: "cost",
		codes:  []string{"set-higher-than-needed", "takes-more-than-rated"},
		answer: answerRun,
	}
}

// answerRun tells the year's electricity.
func answerRun(in *inquiry) answer {
	c := &in.cost
	if in.waits {
		return answer{mark: Unknown, words: "In so large a shop it is worked out when you ask."}
	}
	if c.Untold != "" {
		return answer{mark: Unknown, words: "Cannot tell: " + c.Untold + "."}
	}
	return answer{mark: Told, facts: c.Facts, words: c.Brief}
}

// brief is the year's electricity alone, and its price where that is known.
func (y *year) brief() string {
	all := y.a.All
	if all.Money != nil {
		return "About " + y.money(roughly(*all.Money)) + " a year: " + y.about(all.Energy) + "."
	}
	return "About " + y.about(all.Energy) + " a year."
}
