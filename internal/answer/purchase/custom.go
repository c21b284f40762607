package purchase

import "time"

// Customs of the search and of joining, common practice without a source; those of cutting
// and buying are rules of the job.
const (
	mostSought = 4 * time.Second // for proofs of all cuts and baskets of one job
	leastEnd   = 1.0             // m, an end that is worth joining
	mostJoined = 12              // pieces that a joint is thought of in, the longest
	mostKits   = 2               // times that one kit with lines in it is thought of
	mostMixed  = 60              // choices of such kits that are tried
	centimetre = 0.01
)
