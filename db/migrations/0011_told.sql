ALTER TABLE `messages` ADD `told_at` text;--> statement-breakpoint
ALTER TABLE `messages` ADD `told_text` text;--> statement-breakpoint
UPDATE `messages` SET `told_at` = (
	SELECT max(`at`) FROM `state_changes`
	WHERE `about` = 'question' AND `ref` = `messages`.`question_id` AND `because` = 'the owner was told'
) WHERE `id` = (
	SELECT `m`.`id` FROM `messages` `m` WHERE `m`.`question_id` = `messages`.`question_id` AND `m`.`created_at` <= (
		SELECT max(`at`) FROM `state_changes`
		WHERE `about` = 'question' AND `ref` = `messages`.`question_id` AND `because` = 'the owner was told'
	) ORDER BY `m`.`created_at` DESC, `m`.`id` DESC LIMIT 1
);
