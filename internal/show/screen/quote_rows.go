package screen

// Quotation is what a job costs to have done, as the page lists it.
type Quotation struct {
	Title    string      `json:"title"` // of the job
	Sentence string      `json:"sentence"`
	Money    string      `json:"money"`  // the currency; "money" where none is stated
	Priced   bool        `json:"priced"` // an hour has a price
	Lines    []QuoteLine `json:"lines"`
	Goods    []GoodsRow  `json:"goods"` // what is put in, spares included
	Sums     []SumRow    `json:"sums"`
	Notes    []string    `json:"notes"`
	From     Origin      `json:"from"`
	// Change is what differs from an earlier state, where one was asked for.
	Change *Variation `json:"change"`
}

// QuoteLine is work of one kind.
type QuoteLine struct {
	For     string `json:"for"` // what its time is stated for
	Words   string `json:"words"`
	Number  string `json:"number"`
	Minutes string `json:"minutes"` // for each
	Usual   bool   `json:"usual"`   // the job states no time of its own
	Hours   string `json:"hours"`
	Cost    string `json:"cost"` // "" where an hour has no price
}

// GoodsRow is material of one kind.
type GoodsRow struct {
	Words  string `json:"words"`
	Number string `json:"number"`
}

// SumRow is one row of what it comes to.
type SumRow struct {
	Words string `json:"words"`
	Cost  string `json:"cost"`
	Total bool   `json:"total"`
}
