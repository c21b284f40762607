package server

// Catalogue is GET /api/catalogue and GET /api/jobs/{job}/catalogue: what the pickers of the
// page offer. Figures are worded in the units asked for.
type Catalogue struct {
	Kinds     []CatalogueKind    `json:"kinds"`
	Stocks    []CatalogueStock   `json:"stocks"`
	Joints    []CatalogueItem    `json:"joints"`
	Couplers  []CatalogueCoupler `json:"couplers"`
	Hoses     []CatalogueHose    `json:"hoses"`
	Tools     []CatalogueItem    `json:"tools"`
	Machines  []CatalogueItem    `json:"machines"`
	Treatment []CatalogueTreat   `json:"treatment"`
}

// CatalogueItem is a row with its figures in words.
type CatalogueItem struct {
	ID    string `json:"id"`
	Words string `json:"words"`
	Facts string `json:"facts,omitempty"` // "4 to 8 cfm at 90 psi"
}

// CatalogueKind is a kind of part.
type CatalogueKind struct {
	ID      string          `json:"id"`
	Words   string          `json:"words"`
	Group   string          `json:"group" enum:"fitting,valve,drainage,treatment,plant,outlet"`
	Roles   []string        `json:"roles"`
	FixesTo string          `json:"fixes_to,omitempty"`
	Symbol  string          `json:"symbol"` // path in mm about the point, y up
	Ports   []CataloguePort `json:"ports"`
	Needs   []string        `json:"needs"` // keys of the part that must be stated
}

// CataloguePort is one opening of a part.
type CataloguePort struct {
	ID     string     `json:"id"`
	Toward [3]float64 `json:"toward"`
	Joint  string     `json:"joint"`
	Branch bool       `json:"branch,omitempty"` // has the second size
}

// CatalogueStock is what lines are made of.
type CatalogueStock struct {
	ID      string          `json:"id"`
	Words   string          `json:"words"`
	Form    string          `json:"form"`        // "stick", "coil", "hose"
	Corners string          `json:"corners"`     // "elbow" or "sweep"
	Joining []string        `json:"joining"`     // ids of joints, the usual first
	Fit     string          `json:"fit_for_air"` // "yes", "no", "limited"
	Why     string          `json:"why,omitempty"`
	Sizes   []CatalogueSize `json:"sizes"`
}

// CatalogueSize is one size of a stock.
type CatalogueSize struct {
	Size    string  `json:"size"`
	Bore    float64 `json:"bore_mm"`
	Outside float64 `json:"outside_mm"`
}

// CatalogueCoupler is one interchange profile in one body size.
type CatalogueCoupler struct {
	ID         string `json:"id"`
	Words      string `json:"words"`
	Profile    string `json:"profile"`
	Body       string `json:"body"`
	SocketOnly bool   `json:"socket_only,omitempty"`
}

// CatalogueHose is a hose of one size.
type CatalogueHose struct {
	ID    string  `json:"id"`
	Words string  `json:"words"`
	Line  string  `json:"line"`
	Size  string  `json:"size"`
	Bore  float64 `json:"bore_mm"`
}

// CatalogueTreat is a treatment part that fills in the figures of a kind.
type CatalogueTreat struct {
	ID    string `json:"id"`
	Kind  string `json:"kind"`
	Words string `json:"words"`
	Size  string `json:"size,omitempty"`
	Facts string `json:"facts,omitempty"`
}
