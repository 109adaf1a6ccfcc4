package propose

// Chores are the proposals themselves, before they are put into a party.
var Chores = chores
