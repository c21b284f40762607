package screen

func hold() asked {
	return asked{
		id: rest, question: "Will it stay put and hold together?",
		cautions: []string{
			"Compressed air can kill. Receivers and relief valves come under pressure-vessel law.",
			"No plastic pipe that shatters, such as PVC.",
			"What is not listed here was not checked. Local codes and the makers' instructions rule.",
		},
		answer: answerHold,
	}
}

// answerHold never says yes: growth and supports are not looked at yet.
func answerHold(in *inquiry) answer {
	return in.weighed(answer{mark: Unknown, words: "Nothing found so far; growth and supports are not looked at."})
}
