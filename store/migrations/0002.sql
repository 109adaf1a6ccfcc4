-- Pieces may be of the kinds good and bought from here on (what has been said about things to buy, and what has
-- been bought). A program that does not know them must not read a party without them: hence a number of its own.
UPDATE party SET revision = revision WHERE id < 0;
