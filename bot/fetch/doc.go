// Package fetch gets the page of a recipe from the web, for whoever runs tureen and allows it. Nobody else does: a bot
// without a fetcher opens no address.
//
// Whoever types an address must not reach through tureen what only tureen's own machine reaches. So:
//
//   - the address is https, with no name or password in it and on no port but 443 (address.go);
//   - its name is looked up once, and every answer must be an address of the open internet: none that is private, of
//     this machine, of the link, shared by a carrier, for many at once, reserved, or an IPv4 address in IPv6's clothes
//     (public.go);
//   - the connection goes to the answer that was checked, and is checked again when the socket is about to connect
//     (dial.go), so that a second look-up cannot slip another one in;
//   - each redirect is held to all of this again, and there are few;
//   - what comes is a page, data or text of a bounded length, in a bounded time, and nothing is sent along: no cookie,
//     no credential, no word on where it came from (fetch.go).
//
// Each refusal is a sentence for a person. What comes back is only ever read as a recipe.
package fetch
