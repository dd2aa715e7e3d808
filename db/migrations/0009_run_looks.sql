CREATE TABLE `run_looks` (
	`run_id` text PRIMARY KEY NOT NULL,
	`at` text NOT NULL,
	`by` text,
	`evidence` text NOT NULL,
	`expected_fps` real NOT NULL,
	FOREIGN KEY (`run_id`) REFERENCES `runs`(`id`) ON UPDATE no action ON DELETE no action
);
