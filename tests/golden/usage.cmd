coatwright plam
coatwright area --jsn x
coatwright buy
coatwright area no-such.json
coatwright plan a b
