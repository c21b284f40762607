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

// Variation is what a change of the job comes to.
type Variation struct {
	Sentence string      `json:"sentence"`
	Goods    []DifferRow `json:"goods"`
	Work     []DifferRow `json:"work"`
	Sums     []DifferRow `json:"sums"`
	Notes    []string    `json:"notes"`
}

// DifferRow is what one article, kind of work or sum differs by.
type DifferRow struct {
	Words  string `json:"words"`
	Before string `json:"before"`
	After  string `json:"after"`
	By     string `json:"by"` // "+2", "−41.30"
	Total  bool   `json:"total,omitempty"`
}
