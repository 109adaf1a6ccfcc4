package bot

import "testing"

func TestBringBackARemovedParty(t *testing.T) {
	tb := planned(t)
	refusedWith(t, tb.say("Ana", "/party bring-back"), "No party was removed here")
	before := tb.party()
	tb.must("Ana", "/party remove sure:yes")
	refusedWith(t, tb.say("Ben", "/party bring-back"), "Only a host")
	refusedWith(t, tb.say("Zoe", "/party bring-back name:Harvest supper"), "Only a host")
	refusedWith(t, tb.say("Ana", "/party bring-back name:Harvst supper"), "No party called", "Did you mean Harvest supper")
	wants(t, tb.must("Ana", "/party bring-back name:harvest supper"), "Harvest supper is back")
	if after := tb.party(); after.Party.Covers != before.Party.Covers || after.Plan == nil ||
		len(after.Plan.Tasks) != len(before.Plan.Tasks) {
		t.Errorf("it came back otherwise: %+v", after)
	}
	find(t, tb.later(lisbon(17, 56)), "Chop the pumpkin at 18:00")
}
