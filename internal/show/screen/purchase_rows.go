package screen

import "dropleg/internal/show/scene"

// Purchase is what to buy and what to cut.
type Purchase struct {
	Sentence string      `json:"sentence"`
	Stages   []string    `json:"stages"` // in the order of the work
	Needs    []NeedRow   `json:"needs"`
	Rooms    []RoomRow   `json:"rooms"`
	Baskets  []BasketRow `json:"baskets"` // the cheapest, then those from one supplier alone
	Cuts     []CutRow    `json:"cuts"`
	Tools    []string    `json:"tools"` // that the joints are made with
	Notes    []string    `json:"notes"`
}

// RoomRow is what is in one room, of what stands, is new or is for later.
type RoomRow struct {
	Room   string `json:"room"`
	State  string `json:"state"`
	Line   string `json:"line"`   // along its middle
	Pieces int    `json:"pieces"` // of line
	Parts  int    `json:"parts"`
	Joints int    `json:"joints"`
}

// NeedRow is one article that has to be there.
type NeedRow struct {
	Article string     `json:"article"`
	Words   string     `json:"words"`
	Shelf   string     `json:"shelf"`
	Number  string     `json:"number"`          // less what is in the drawer
	Spare   string     `json:"spare,omitempty"` // of the number
	Drawer  string     `json:"drawer,omitempty"`
	Counted string     `json:"counted,omitempty"` // how a supply was reckoned
	Stages  []StageRow `json:"stages"`
	Things  []string   `json:"things"`
	Sold    bool       `json:"sold"` // somebody on the lists has it
	Per     string     `json:"per"`  // piece or m: what a price of it is for
	From    Origin     `json:"from"`
}

// StageRow is what of an article a stage of the work takes.
type StageRow struct {
	Stage  string `json:"stage"`
	Number string `json:"number"`
}

// BasketRow is one way to buy it all.
type BasketRow struct {
	Title string    `json:"title"`
	Price string    `json:"price"`
	Proof string    `json:"proof"`
	Shops []ShopRow `json:"shops"`
	Left  []string  `json:"left"` // what is left over, for the drawer
	From  Origin    `json:"from"`
}

// ShopRow is what is bought from one supplier.
type ShopRow struct {
	Supplier string      `json:"supplier"`
	Goods    string      `json:"goods"`
	Delivery string      `json:"delivery,omitempty"`
	Lines    []BoughtRow `json:"lines"`
}

// BoughtRow is one offer.
type BoughtRow struct {
	Offer string `json:"offer,omitempty"` // id; "" of the own price list
	Times string `json:"times"`
	Words string `json:"words"`
	Cost  string `json:"cost"`
}

// CutRow is the cutting of one stock and size.
type CutRow struct {
	Words    string      `json:"words"`
	Sentence string      `json:"sentence"`
	Scene    scene.Scene `json:"scene"`
	Bars     []BarRow    `json:"bars"`
	Joints   []string    `json:"joints"` // that have to go into pieces longer than any length
	From     Origin      `json:"from"`
}

// BarRow is one length, and its cuts in their order.
type BarRow struct {
	Words string    `json:"words"` // "1: 20 ft 0 in"
	Cuts  []CutMark `json:"cuts"`
	Left  string    `json:"left"`
}

// CutMark is one cut.
type CutMark struct {
	Length string `json:"length"`
	Piece  string `json:"piece"`
	Thing  string `json:"thing"`
	At     string `json:"at,omitempty"` // where it is marked on the wall
}
