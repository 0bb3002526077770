# Four parts side by side, each into a folder of its own, then one index over all of them.
for part in 1 2 3 4; do
    wirelore pack "$SURVEYS" -o "packs-$part" --shard "$part/4" --quiet &
done
wait
wirelore index packs-1 packs-2 packs-3 packs-4 -o all
