package screen

func buy() asked {
	return asked{id: "buy", question: "What do I buy and what does it cost?", list: "parts", answer: answerBuy}
}

// answerBuy counts what is planned, and adds up what has a price.
func answerBuy(in *inquiry) answer {
	take := in.shop.takeOff()
	metres, pieces, articles := in.shop.toGet()
	if articles == 0 {
		return answer{mark: Unknown, words: "Nothing is planned, so nothing to buy."}
	}
	list := in.view.whole(metres) + " of line and " + plural(pieces, "piece", "pieces")
	facts := []Fact{{Words: "Articles", Figure: plural(articles, "article", "articles"), From: counted("kinds of part and sizes of line in the take-off of what is planned")}}
	switch {
	case take.Unpriced == 0:
		return answer{mark: Told, facts: facts, words: in.shop.money(take.Cost) + " for " + list + "."}
	case take.Cost > 0:
		facts = append(facts,
			Fact{Words: "Priced so far", Figure: in.shop.money(take.Cost), From: from("Sum", "number of each article times its price in the job's own list")},
			Fact{Words: "Without a price", Figure: plural(take.Unpriced, "article", "articles"), From: counted("articles that the job's price list does not have")})
		return answer{mark: Unknown, facts: facts, words: upper(list) + "; " + plural(take.Unpriced, "article lacks", "articles lack") + " a price."}
	}
	return answer{mark: Unknown, facts: facts, words: upper(list) + "; no prices yet."}
}
