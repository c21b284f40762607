package screen

import (
	"dropleg/internal/answer/parts"
)

func buy() asked {
	return asked{id: "buy", question: "What do I buy and what does it cost?", list: "parts", answer: answerBuy}
}

// answerBuy counts what is planned, and adds up what has a price.
func answerBuy(in *inquiry) answer {
	take := in.shop.takeOff()
	metres, pieces, articles := 0.0, 0, 0
	for _, l := range take.Lines {
		if l.State != parts.Planned || l.Group == parts.Made {
			continue
		}
		articles++
		if l.Pieces > 0 {
			pieces += l.Pieces
		} else if l.Length != nil {
			metres += float64(*l.Length)
		}
	}
	if articles == 0 {
		return answer{mark: Unknown, words: "Nothing is planned, so nothing to buy."}
	}
	list := in.view.whole(metres) + " of line and " + plural(pieces, "piece", "pieces")
	facts := []Fact{{Words: "Articles", Figure: plural(articles, "article", "articles")}}
	switch {
	case take.Unpriced == 0:
		return answer{mark: Yes, facts: facts, words: in.shop.money(take.Cost) + " for " + list + "."}
	case take.Cost > 0:
		facts = append(facts, Fact{Words: "Priced so far", Figure: in.shop.money(take.Cost)}, Fact{Words: "Without a price", Figure: plural(take.Unpriced, "article", "articles")})
		return answer{mark: Unknown, facts: facts, words: upper(list) + "; " + plural(take.Unpriced, "article lacks", "articles lack") + " a price."}
	}
	return answer{mark: Unknown, facts: facts, words: upper(list) + "; no prices yet."}
}
