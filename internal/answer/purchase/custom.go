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

// packs are the rolls and tins that supplies are usually sold in, kg: 1 lb of solder or rod,
// 4 oz of flux. Common practice, no source; a price list counts in them. It is never written to.
var packs = map[string]float64{"95-5 solder": 0.4536, "brazing rod": 0.4536, "flux": 0.1134}
