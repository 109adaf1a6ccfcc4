// Package propose says what a party needs beside its dishes: what is bought and thawed, space made in the refrigerator,
// the table laid, the wine chilled, plates washed between courses, the hosts dressed.
//
// [Renew] puts the tasks that follow from the party as it stands in place of those that followed before, and leaves
// alone what people have added, changed, begun or declined (chores.go). Each sort of task has its file: cold.go what is
// thawed, chilled and given space, table.go the plates between courses, shop.go the ways to the shops, evening.go and
// its tables what belongs to an evening by the kind of party (package portion tells which), ice.go the ice. A way to a
// shop is the hard one: lead.go says when each step may begin, so that want.go knows from when and until when a thing
// is wanted, less what there is of it; and shop.go makes as few ways as shelf lives allow. [ToBuy] says what is bought
// on which.
//
// A proposal is a chore like any other: package solve does not know who thought of it.
package propose
