package job

import "dropleg/engine/unit"

// Prices is the person's own list and offers.
type Prices struct {
	Currency string     `json:"currency,omitempty"`
	Date     string     `json:"date,omitempty" doc:"ISO 8601"`
	List     []Price    `json:"list,omitempty"`
	Offers   []Offer    `json:"offers,omitempty"`
	Delivery []Delivery `json:"delivery,omitempty"`
	Drawer   []Amount   `json:"drawer,omitempty" doc:"already there"`
	Labour   *Labour    `json:"labour,omitempty" doc:"for a quotation"`
}

// Labour is what an installer reckons work by. What is left out is taken as is usual.
type Labour struct {
	Rate    *float64     `json:"rate_1_h,omitempty" min:"0" max:"1e6" doc:"money for an hour"`
	Margin  *unit.Ratio  `json:"margin,omitempty" min:"0" max:"10" doc:"share on top of material"`
	Tax     *unit.Ratio  `json:"tax,omitempty" min:"0" max:"1" doc:"share on top of the sum"`
	Minutes []LabourTime `json:"minutes,omitempty"`
}

// LabourTime is the time that one thing takes.
type LabourTime struct {
	For     string  `json:"for" doc:"a way of joining, or metre, support, outlet, plant part"`
	Minutes float64 `json:"min" min:"0" max:"100000"`
}

// Amount is a number of one article; for lines the article is stock and size and the number is metres.
type Amount struct {
	Article string  `json:"article"`
	Number  float64 `json:"number" min:"0" max:"1e9"`
	// Lengths that a number of metres comes in; without it one length, or sticks as usual.
	Each *unit.Length `json:"lengths_m,omitempty" above:"0" max:"1000" doc:"of lines: the number of metres comes in lengths of this"`
}

// Price is one own price.
type Price struct {
	Article string  `json:"article"`
	Each    float64 `json:"each" min:"0" max:"1e9"`
	Per     string  `json:"per,omitempty" enum:"piece,m"`
}

// Offer is a kit, pack, coil, stick or single as a supplier sells it.
type Offer struct {
	ID       ID       `json:"id" doc:"offer.…"`
	Supplier string   `json:"supplier,omitempty"`
	Words    string   `json:"words,omitempty"`
	Price    float64  `json:"price" min:"0" max:"1e9"`
	Holds    []Amount `json:"holds"`
}

// Delivery is what a supplier charges to deliver.
type Delivery struct {
	Supplier string   `json:"supplier"`
	Charge   float64  `json:"charge" min:"0" max:"1e9"`
	FreeFrom *float64 `json:"free_from,omitempty" min:"0" max:"1e9"`
}
