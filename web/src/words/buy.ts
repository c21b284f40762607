// The page's own words about buying and cutting.

export const buyWords = {
  all: "all of it",
  basket: "Where to buy it",
  cuts: "Cut by cut",
  delivery: "delivery",
  drawer: "in the drawer:",
  left: "Left over:",
  list: "What has to be there",
  number: "How many",
  open: "left:",
  plan: "What is cut from what",
  stage: "For",
  stages: { plant: "the plant", mains: "the mains", drops: "the drops", outlets: "the outlets" } as Record<
    string,
    string
  >,
  tools: "Tools that the joints take",
  unsold: "on no list",
  wait: "The purchase is being put together …",
  what: "What",
};
