// CONTRACT: strict reading and orderly writing of JSON documents.

package document

// Problem is one thing wrong with a document, in words for the person who wrote it.
type Problem struct {
	Path    string `json:"path"`              // "net.runs[3].size", with the id of the thing where it has one
	Line    int    `json:"line,omitempty"`    // 1-based, where the text is at hand
	Read    string `json:"read,omitempty"`    // what stood there
	Want    string `json:"want"`              // what is accepted
	Nearest string `json:"nearest,omitempty"` // nearest valid word, if one is near
}
