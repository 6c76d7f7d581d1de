coatwright mix shellac-dewaxed 500 ml --cut 1 --from 3
