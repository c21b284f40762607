package cut

// Length is a whole number of tenths of a millimetre.
type Length int64

// Stock is a length that can be bought or that lies there already.
type Stock struct {
	ID        string
	Length    Length
	Price     int64 // in the smallest coin, not negative
	Available *int  // nil: any number
	Leftover  bool  // a named piece that is already there
}

// Piece is a length that is needed.
type Piece struct {
	ID     string
	Length Length
	Count  int
}

// Question is what is to be cut from what.
type Question struct {
	Stocks  []Stock
	Pieces  []Piece
	Kerf    Length // lost behind each piece, but for one that ends flush
	EndTrim Length // lost once on each stock length
	Useful  Length // least open end that is worth a name
}

// Cut is one piece of one bar.
type Cut struct {
	Piece  int // index into Question.Pieces
	Copy   int // which of the piece's Count, from 0
	Length Length
	Joined bool // one of the two ends of which the piece is made
}

// Bar is one stock length and what is cut from it, in the order of Question.Pieces.
type Bar struct {
	Stock int // index into Question.Stocks
	Cuts  []Cut
	Open  Length // what is left behind the last piece and its kerf
	Named bool   // the open end is worth keeping
}

// Plan is an answer with its proof.
type Plan struct {
	Bars   []Bar
	Price  int64
	Bound  int64 // no plan costs less
	Proven bool  // Price equals Bound
}
