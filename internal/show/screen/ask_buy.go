package screen

func buy() asked {
	return asked{id: "buy", question: "What do I buy and what does it cost?", list: "purchase", answer: answerBuy}
}

// answerBuy tells the price of the cheapest basket, and what nobody sells.
func answerBuy(in *inquiry) answer {
	metres, pieces, articles := in.shop.toGet()
	if articles == 0 {
		return answer{mark: Unknown, words: "Nothing is planned, so nothing to buy."}
	}
	list := in.view.whole(metres) + " of line and " + plural(pieces, "piece", "pieces")
	facts := []Fact{{Words: "Articles", Figure: plural(len(in.bought.Needs), "article", "articles"), From: counted("kinds of part and sizes of line of what is planned, with what joints and supports ask for")}}
	open := len(in.bought.Unsold)
	if n := len(in.bought.Uncut); n > 0 {
		facts = append(facts, Fact{Words: "Out of no length on offer", Figure: plural(n, "line", "lines"), From: counted("lines of which a piece is longer than any length that somebody sells: joints have to go in")})
		return answer{mark: Unknown, facts: facts, words: upper(list) + "; " + plural(n, "line comes", "lines come") + " out of no length on offer."}
	}
	if open > 0 {
		facts = append(facts, Fact{Words: "Without a price", Figure: plural(open, "article", "articles"), From: counted("articles that neither the job's offers nor its price list have")})
	}
	switch basket := in.bought.Basket; {
	case basket == nil:
		return answer{mark: Unknown, facts: facts, words: upper(list) + "; no prices yet."}
	case open == 0:
		return answer{mark: Told, facts: facts, words: in.shop.money(float64(basket.Price)/100) + " for " + list + "."}
	default:
		facts = append(facts, Fact{Words: "Priced so far", Figure: in.shop.money(float64(basket.Price) / 100), From: from("The cheapest basket", "offers, price list and deliveries of the job")})
		return answer{mark: Unknown, facts: facts, words: upper(list) + "; " + plural(open, "article lacks", "articles lack") + " a price."}
	}
}
